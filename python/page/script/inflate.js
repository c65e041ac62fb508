// Unpacks the compiled library, which stands in the page deflated: RFC 1951, whose tables these are. Browsers have
// had this themselves only since 2023.

const EXTRA_LENGTH = [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0];
const EXTRA_DISTANCE = [0, 0, ...Array.from({ length: 28 }, (_, i) => i >> 1)];
const ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];

function bases(extra, first) {
  const made = [];
  let at = first;
  for (const bits of extra) {
    made.push(at);
    at += 1 << bits;
  }
  return made;
}
const BASE_LENGTH = bases(EXTRA_LENGTH.slice(0, 28), 3).concat(258);
const BASE_DISTANCE = bases(EXTRA_DISTANCE, 1);

// Canonical code: how many symbols of each length, and the symbols in the order of their codes.
function codeOf(lengths) {
  const count = new Uint16Array(16);
  lengths.forEach((n) => (count[n] += 1));
  count[0] = 0;
  const from = new Uint16Array(16);
  for (let n = 1; n < 15; n += 1) from[n + 1] = from[n] + count[n];
  const symbol = new Uint16Array(lengths.length);
  lengths.forEach((n, i) => {
    if (n) symbol[from[n]++] = i;
  });
  return { count, symbol };
}

const repeated = (times, value) => new Array(times).fill(value);
const FIXED = {
  literal: codeOf([...repeated(144, 8), ...repeated(112, 9), ...repeated(24, 7), ...repeated(8, 8)]),
  distance: codeOf(repeated(30, 5)),
};

export function inflate(packed, size) {
  const out = new Uint8Array(size);
  let [at, bit, held, filled] = [0, 0, 0, 0];
  const bits = (n) => {
    while (bit < n) {
      if (at >= packed.length) throw new Error("the packed library is cut short");
      held |= packed[at++] << bit;
      bit += 8;
    }
    const value = held & ((1 << n) - 1);
    held >>>= n;
    bit -= n;
    return value;
  };
  const decode = ({ count, symbol }) => {
    let [code, first, index] = [0, 0, 0];
    for (let n = 1; n < 16; n += 1) {
      code |= bits(1);
      if (code - first < count[n]) return symbol[index + code - first];
      index += count[n];
      first = (first + count[n]) << 1;
      code <<= 1;
    }
    throw new Error("the packed library is damaged");
  };
  const block = (literal, distance) => {
    for (let one = decode(literal); one !== 256; one = decode(literal)) {
      if (one < 256) {
        out[filled++] = one;
        continue;
      }
      const length = BASE_LENGTH[one - 257] + bits(EXTRA_LENGTH[one - 257]);
      const which = decode(distance);
      const back = BASE_DISTANCE[which] + bits(EXTRA_DISTANCE[which]);
      for (let k = 0; k < length; k += 1, filled += 1) out[filled] = out[filled - back];
    }
  };
  const tables = () => {
    const [literals, distances, few] = [bits(5) + 257, bits(5) + 1, bits(4) + 4];
    const short = repeated(19, 0);
    for (let k = 0; k < few; k += 1) short[ORDER[k]] = bits(3);
    const code = codeOf(short);
    const lengths = [];
    while (lengths.length < literals + distances) {
      const one = decode(code);
      if (one < 16) lengths.push(one);
      else if (one === 16) lengths.push(...repeated(3 + bits(2), lengths[lengths.length - 1]));
      else lengths.push(...repeated(one === 17 ? 3 + bits(3) : 11 + bits(7), 0));
    }
    return [codeOf(lengths.slice(0, literals)), codeOf(lengths.slice(literals))];
  };
  for (let last = 0; !last;) {
    last = bits(1);
    const kind = bits(2);
    if (kind === 0) {
      [held, bit] = [0, 0];
      const length = packed[at] | (packed[at + 1] << 8);
      at += 4;
      out.set(packed.subarray(at, at + length), filled);
      at += length;
      filled += length;
    } else if (kind === 1) block(FIXED.literal, FIXED.distance);
    else block(...tables());
  }
  if (filled !== size) throw new Error("the packed library has another size than it should");
  return out;
}

export function fromBase64(text) {
  const bytes = atob(text);
  const made = new Uint8Array(bytes.length);
  for (let i = 0; i < bytes.length; i += 1) made[i] = bytes.charCodeAt(i);
  return made;
}
