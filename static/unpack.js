// Unpacks the engine, by WebAssembly that wasm/pack makes of its package unpack and
// puts in here. JavaScript takes twice as long in the first second of a page.
//
// next promises what has come so far, which begins with what came before, or null
// at the end. unpackEngine promises the bytes of the module; what is damaged throws.
// The page breathes meanwhile.
//
// Handing the module on piece by piece to a browser that compiles it meanwhile was no
// faster on two cores: Chromium 202 ms for both against 202, Firefox 363 against 337.
async function unpackEngine(next) {
  "use strict";
  const { instance } = await WebAssembly.instantiate(bytesOf("(unpacker)"));
  const { memory, Packed, Module, Size, Room, Unpack, Check } = instance.exports;
  const window = 1 << 16; // bytes in Packed
  const breathe = pauses();
  let had = 0;

  async function go(more, isLast) {
    for (let n = more, busy = 1; busy; n = 0) {
      busy = sound(() => Unpack(n, isLast));
      await breathe();
    }
  }

  function sound(work) {
    try {
      return work();
    } catch {
      throw new Error("its packed form is damaged");
    }
  }

  for (let come = await next(); come; come = await next()) {
    while (had < come.length) {
      const room = Room(), piece = come.subarray(had, had + window - room);
      new Uint8Array(memory.buffer).set(piece, Packed.value + room);
      had += piece.length;
      await go(piece.length, 0);
    }
  }
  await go(0, 1);
  sound(Check);
  return new Uint8Array(memory.buffer, Module.value, Size.value);
}

// Gives a function to await now and then: when 15 ms have gone by it lets the page
// take keys and paint. A message does, as browsers hold back a timer for 4 ms.
function pauses() {
  "use strict";
  const { port1, port2 } = new MessageChannel();
  let since = performance.now();
  return async () => {
    if (performance.now() - since < 15) return;
    await new Promise((go) => {
      port1.onmessage = () => { port1.onmessage = null; go(); };
      port2.postMessage(0);
    });
    since = performance.now();
  };
}

// Gives the bytes of a text that holds 13 bits in every two of 91 letters, and 6
// in a last one that stands alone. What the packer writes has no line feeds.
function bytesOf(text) {
  "use strict";
  const out = new Uint8Array(Math.floor(((text.length >> 1) * 13 + text.length % 2 * 6) / 8));
  const digit = (i) => { const c = text.charCodeAt(i); return c === 33 ? 25 : c - 35; };
  let held = 0, bits = 0, at = 0;
  for (let i = 0; i < text.length; i += 2) {
    const isPair = i + 1 < text.length;
    held |= digit(i) + (isPair ? 91 * digit(i + 1) : 0) << bits;
    for (bits += isPair ? 13 : 6; bits >= 8; bits -= 8) {
      out[at++] = held;
      held >>>= 8;
    }
  }
  return out;
}
