// Unpacks the engine. It is packed as .lzma, a third smaller than what browsers
// can unpack by themselves. The format is that of the LZMA specification in the
// LZMA SDK (public domain, lzma-specification.txt), whose names stand below.
//
// unpackLzma takes a Uint8Array and promises one; what is damaged throws. It
// lets the page breathe now and then, so that typing goes on meanwhile. It need
// not wait until all is there: next then promises what has come so far, which
// begins with what came before, or null at the end.
async function unpackLzma(packed, next) {
  "use strict";
  const broken = () => new Error("its packed form is damaged");

  // No packet is longer than this, so that many bytes are enough to go on with.
  const enough = 32;
  let safe = 0; // up to where it is safe to read
  async function need(n) {
    for (safe = packed.length - enough; coder[AT] + n > safe + enough; safe = packed.length - enough) {
      const more = next && await next();
      if (!more) { safe = 1 << 30; return; }
      packed = more;
    }
  }

  // The range coder: range and code, unsigned in spite of their type, and bytes
  // read. Readers of many bits have them in variables meanwhile.
  const RANGE = 0, CODE = 1, AT = 2, coder = new Int32Array(3);

  await need(18 + enough);
  if (packed.length < 18 || packed[0] >= 225) throw broken();
  const lc = packed[0] % 9, lp = Math.floor(packed[0] / 9) % 5, pb = Math.floor(packed[0] / 45);
  const size = new DataView(packed.buffer, packed.byteOffset).getUint32(5, true);
  if (size > 1 << 28) throw broken();
  const out = new Uint8Array(size);

  // The chances (in 2048) that the bits of each kind are 0, one kind after the other.
  const isMatch = 0, isRep = 192, isRepG0 = 204, isRepG1 = 216, isRepG2 = 228, isRep0Long = 240;
  const posSlot = 432, posDecoders = 688, align = 802, lenCoder = 818, repLenCoder = 1332, literals = 1846;
  const chances = new Uint16Array(literals + (0x300 << (lc + lp))).fill(1024);

  coder.set([-1, new DataView(packed.buffer, packed.byteOffset).getUint32(14), 18]);

  const bit = (i) => tree(i - 1, 1) - 2;

  // n bits, the highest first, below a 1.
  function tree(i, n) {
    let range = coder[RANGE], code = coder[CODE], at = coder[AT], m = 1;
    do {
      const chance = chances[i + m], bound = Math.imul(range >>> 11, chance);
      if (code >>> 0 < bound >>> 0) {
        range = bound;
        chances[i + m] = chance + (2048 - chance >> 5);
        m <<= 1;
      } else {
        range = range - bound | 0;
        code = code - bound | 0;
        chances[i + m] = chance - (chance >> 5);
        m = m << 1 | 1;
      }
      if (range >>> 24 === 0) { range <<= 8; code = code << 8 | packed[at++]; }
    } while (--n > 0);
    coder[RANGE] = range;
    coder[CODE] = code;
    coder[AT] = at;
    return m;
  }

  // n bits, the lowest first.
  function reverse(i, n) {
    let value = 0;
    for (let m = tree(i, n); m > 1; m >>= 1) value = value << 1 | m & 1;
    return value;
  }

  // n bits whose chances are even.
  function direct(n) {
    let range = coder[RANGE], code = coder[CODE], at = coder[AT], value = 0;
    for (; n > 0; n--) {
      range >>>= 1;
      value <<= 1;
      if (code >>> 0 >= range) {
        code = code - range | 0;
        value |= 1;
      }
      if (range >>> 24 === 0) { range <<= 8; code = code << 8 | packed[at++]; }
    }
    coder[RANGE] = range;
    coder[CODE] = code;
    coder[AT] = at;
    return value;
  }

  // A byte where a match has just ended: its first bits are most often those of
  // the byte that would have gone on with the match.
  function unlike(i, like) {
    let m = 1;
    while (m < 0x100) {
      like <<= 1;
      const one = bit(i + 0x100 + (like & 0x100) + m);
      m = m << 1 | one;
      if (one !== (like >> 8 & 1)) break;
    }
    while (m < 0x100) m = m << 1 | bit(i + m);
    return m;
  }

  function length(i, posState) {
    if (!bit(i)) return tree(i + 2 + (posState << 3), 3) - 8 + 2;
    if (!bit(i + 1)) return tree(i + 130 + (posState << 3), 3) + 2;
    return tree(i + 258, 8) - 256 + 16 + 2;
  }

  function distance(len) {
    const slot = tree(posSlot + (Math.min(len - 2, 3) << 6), 6) - 64;
    if (slot < 4) return slot;
    const n = (slot >> 1) - 1, from = (2 | slot & 1) << n;
    if (slot < 14) return from + reverse(posDecoders + from - slot, n);
    return from + (direct(n - 4) << 4) + reverse(align, 4);
  }

  // The last four distances, and what the last packets were.
  let rep0 = 0, rep1 = 0, rep2 = 0, rep3 = 0, state = 0;

  // recall makes an earlier distance the newest.
  function recall() {
    let dist = rep1;
    if (bit(isRepG1 + state)) {
      dist = rep2;
      if (bit(isRepG2 + state)) { dist = rep3; rep3 = rep2; }
      rep2 = rep1;
    }
    rep1 = rep0;
    rep0 = dist;
  }

  // From pos to limit, or as far as the bytes go.
  function decode(pos, limit) {
    while (pos < limit && coder[AT] <= safe) {
      const posState = pos & (1 << pb) - 1;
      if (!bit(isMatch + (state << 4) + posState)) {
        const before = pos > 0 ? out[pos - 1] : 0;
        const i = literals + 0x300 * (((pos & (1 << lp) - 1) << lc) + (before >> 8 - lc));
        out[pos] = state < 7 ? tree(i, 8) : unlike(i, out[pos - rep0 - 1]);
        pos++;
        state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
        continue;
      }
      let len;
      if (!bit(isRep + state)) {
        rep3 = rep2;
        rep2 = rep1;
        rep1 = rep0;
        len = length(lenCoder, posState);
        rep0 = distance(len);
        state = state < 7 ? 7 : 10;
      } else {
        let short = false;
        if (bit(isRepG0 + state)) recall();
        else short = !bit(isRep0Long + (state << 4) + posState);
        len = short ? 1 : length(repLenCoder, posState);
        state = state >= 7 ? 11 : short ? 9 : 8;
      }
      if (rep0 >= pos || len > size - pos) throw broken();
      for (const end = pos + len; pos < end; pos++) out[pos] = out[pos - rep0 - 1];
    }
    return pos;
  }

  // Short runs, so that a browser can go over to what it has compiled meanwhile.
  const breathe = pauses();
  for (let pos = 0; pos < size; pos = decode(pos, Math.min(size, pos + 65536))) {
    if (coder[AT] > safe) await need(enough);
    await breathe();
  }
  for (let more = packed; more; more = next && await next()) packed = more;
  if (coder[CODE] !== 0 || coder[AT] !== packed.length) throw broken();
  return out;
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
