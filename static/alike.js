// Gives back the module that wasm/pack wrote with parts that are more alike
// (alike.go says how), and any other bytes as they are. Opcodes and sections are
// those of the WebAssembly Core Specification, 5.4 and 5.5.2.
//
// It promises a Uint8Array and lets the page breathe now and then; what is
// damaged throws.
async function moduleOf(text) {
  "use strict";
  const broken = () => new Error("its packed form is damaged");
  if (text.length < 8 || String.fromCharCode(...text.subarray(0, 4)) !== "alik") return text;
  const size = new DataView(text.buffer, text.byteOffset).getUint32(4, true);
  if (size > 1 << 28) throw broken();
  const out = new Uint8Array(size + 5); // a function's size takes up to 5 bytes
  out.set([0, 97, 115, 109, 1, 0, 0, 0]);
  let at = 8, to = 8; // in text, in out

  // How many numbers follow an opcode that is copied with them, and which are
  // not that simple.
  const special = 3, numbers = new Uint8Array(256);
  for (const [from, last, count] of [[0x10, 0x10, 1], [0x11, 0x11, 2], [0x20, 0x24, 1], [0x28, 0x3e, 2], [0x3f, 0x42, 1]]) {
    numbers.fill(count, from, last + 1);
  }
  for (const op of [0x02, 0x03, 0x04, 0x06, 0x07, 0x08, 0x0b, 0x0c, 0x0d, 0x0e, 0x43, 0x44, 0xfc]) numbers[op] = special;

  function copy(n) {
    if (n > 64) {
      out.set(text.subarray(at, at + n), to);
      at += n;
      to += n;
    } else for (; n > 0; n--) out[to++] = text[at++];
  }

  function copyNumber() {
    do out[to++] = text[at]; while (text[at++] > 127);
  }

  function number() {
    let v = 0, shift = 0, b;
    do {
      b = text[at++];
      v |= (b & 127) << shift;
      shift += 7;
    } while (b > 127);
    return v;
  }

  // A number with a sign, of 20 bits or fewer.
  function step() {
    const start = at, v = number(), bits = 7 * (at - start);
    return v << 32 - bits >> 32 - bits;
  }

  function put(v) {
    for (; v > 127; v >>>= 7) out[to++] = v & 127 | 128;
    out[to++] = v;
  }

  function copied() {
    const v = number();
    put(v);
    return v;
  }

  function putSigned(v) {
    for (; v < -64 || v > 63; v >>= 7) out[to++] = v & 127 | 128;
    out[to++] = v & 127;
  }

  // Numbers that stand as what each is above the last and 1.
  function steps(count) {
    for (let v = -1; count > 0 && at < text.length; count--) put(v += step() + 1);
  }

  // The code of a function that Go knows as place.
  function body(place) {
    for (let runs = copied(); runs > 0 && at < text.length; runs--) { copyNumber(); copy(1); }
    let block = 0, depth = 0;
    while (depth >= 0) {
      if (at >= text.length) throw broken();
      const op = text[at++], n = numbers[op];
      if (n < special) {
        out[to++] = op;
        if (n > 0) copyNumber();
        if (n > 1) copyNumber();
      } else if (op === 0x06) { // the place to return to
        out[to++] = 0x42;
        putSigned(place + (block += step()));
      } else if (op === 0x07) { // the block to go on at
        out[to++] = 0x41;
        putSigned(block + step());
        out[to++] = 0x21;
        out[to++] = 0;
      } else if (op === 0x08) { // a call through a known place of the table
        out[to++] = 0x41;
        putSigned(number());
        out[to++] = 0x11;
        out[to++] = 0;
        out[to++] = 0;
      } else {
        out[to++] = op;
        if (op < 0x05) { depth++; copy(1); }
        else if (op === 0x0b) depth--;
        else if (op === 0x0e) steps(copied() + 1);
        else if (op < 0x0e) put(depth - number());
        else if (op === 0x43) copy(4);
        else if (op === 0x44) copy(8);
        else copy(text[at] === 0x0a ? 3 : text[at] === 0x0b ? 2 : 1);
      }
    }
  }

  // Where in the table each function stands, which is what Go knows it as.
  const places = [];

  function elements() {
    for (let parts = copied(), first = -1; parts > 0; parts--) {
      if (at >= text.length) throw broken();
      copy(2);
      let slot = number(); // never below 0
      putSigned(slot);
      copy(1);
      for (let count = copied(); count > 0; count--) {
        if (to > size) throw broken();
        if (first < 0) first = number();
        put(first + places.length);
        places.push(slot++);
      }
    }
  }

  async function code() {
    const count = copied();
    const breathe = pauses();
    for (let i = 0, pause = 0; i < count; i++) {
      if (to >= pause) {
        pause = to + (1 << 16);
        await breathe();
      }
      const head = to;
      to += 5;
      body(places[i] << 16);
      const end = to;
      to = head;
      put(end - head - 5);
      out.copyWithin(to, head + 5, end);
      to += end - head - 5;
    }
  }

  while (to < size) {
    const id = text[at];
    copy(1);
    const length = copied(), stop = to + length;
    if (id === 0x09) elements();
    else if (id === 0x0a) await code();
    if (stop > size || to > stop || at > text.length) throw broken();
    copy(stop - to);
  }
  if (to !== size || at !== text.length) throw broken();
  return out.subarray(0, size);
}
