// SHA-256 in plain arithmetic, so that a draw can be repeated wherever the engine runs, with no library of the machine.

/** SHA-256 of a text in UTF-8 as eight words of 32 bits, most significant first. */
export type Hash = (text: string) => Iterable<number>

const primes = firstPrimes(64)
/** First 32 bits of the fractional parts of the square roots of the first eight primes, and of the cube roots of the first 64. */
const initial = Uint32Array.from(primes.slice(0, 8), (prime) => lowWord(integerRoot(prime << 64n, 2n)))
const rounds = Uint32Array.from(primes, (prime) => lowWord(integerRoot(prime << 96n, 3n)))

/**
 * The SHA-256 value of a text in UTF-8: eight words of 32 bits, most significant first.
 *
 * @param text any text of fewer than 2^53 bytes
 * @returns eight whole numbers from 0 to 2^32 − 1
 *
 * Source: FIPS 180-4 (2015), 4.1.2, 4.2.2, 5.3.3, 6.2.
 *
 * @example sha256('abc')[0] // 0xba7816bf
 */
export function sha256(text: string): Uint32Array {
  const message = padded(utf8(text))
  const state = Uint32Array.from(initial)
  const schedule = new Int32Array(64)
  for (let from = 0; from < message.length; from += 64) {
    expand(message, from, schedule)
    compress(state, schedule)
  }
  return state
}

function firstPrimes(many: number): bigint[] {
  const primes: bigint[] = []
  for (let candidate = 2n; primes.length < many; candidate++)
    if (primes.every((prime) => candidate % prime !== 0n)) primes.push(candidate)
  return primes
}

/** The largest whole number whose power is not above the value, bit by bit: exact, which a root in binary fractions need not be. */
function integerRoot(value: bigint, power: bigint): bigint {
  let root = 0n
  for (let bit = 1n << 40n; bit > 0n; bit >>= 1n) if ((root + bit) ** power <= value) root += bit
  return root
}

function lowWord(value: bigint): number {
  return Number(value & 0xffffffffn)
}

/** Half a pair of surrogates alone is written as U+FFFD. */
function utf8(text: string): number[] {
  const bytes: number[] = []
  for (const character of text) {
    const typed = character.codePointAt(0) ?? 0
    const point = typed >= 0xd800 && typed <= 0xdfff ? 0xfffd : typed
    if (point < 0x80) bytes.push(point)
    else if (point < 0x800) bytes.push(0xc0 | (point >> 6), tail(point))
    else if (point < 0x10000) bytes.push(0xe0 | (point >> 12), tail(point >> 6), tail(point))
    else bytes.push(0xf0 | (point >> 18), tail(point >> 12), tail(point >> 6), tail(point))
  }
  return bytes
}

function tail(bits: number): number {
  return 0x80 | (bits & 0x3f)
}

/** The message, a bit 1, zeros, and its length in bits in the last eight bytes of a block. */
function padded(bytes: number[]): Uint8Array {
  const message = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64)
  message.set(bytes)
  message[bytes.length] = 0x80
  const view = new DataView(message.buffer)
  view.setUint32(message.length - 8, Math.floor(bytes.length / 2 ** 29))
  view.setUint32(message.length - 4, (bytes.length * 8) >>> 0)
  return message
}

function expand(message: Uint8Array, from: number, w: Int32Array): void {
  for (let t = 0; t < 16; t++) {
    const at = from + 4 * t
    w[t] = (message[at]! << 24) | (message[at + 1]! << 16) | (message[at + 2]! << 8) | message[at + 3]!
  }
  for (let t = 16; t < 64; t++) {
    const before = w[t - 15]!
    const latest = w[t - 2]!
    const s0 = ((before >>> 7) | (before << 25)) ^ ((before >>> 18) | (before << 14)) ^ (before >>> 3)
    const s1 = ((latest >>> 17) | (latest << 15)) ^ ((latest >>> 19) | (latest << 13)) ^ (latest >>> 10)
    w[t] = (w[t - 16]! + s0 + w[t - 7]! + s1) | 0
  }
}

function compress(state: Uint32Array, w: Int32Array): void {
  let [a, b, c, d] = [state[0]! | 0, state[1]! | 0, state[2]! | 0, state[3]! | 0]
  let [e, f, g, h] = [state[4]! | 0, state[5]! | 0, state[6]! | 0, state[7]! | 0]
  for (let t = 0; t < 64; t++) {
    const s1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7))
    const one = (h + s1 + ((e & f) ^ (~e & g)) + rounds[t]! + w[t]!) | 0
    const s0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10))
    const two = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0
    h = g
    g = f
    f = e
    e = (d + one) | 0
    d = c
    c = b
    b = a
    a = (one + two) | 0
  }
  const sums = [a, b, c, d, e, f, g, h]
  for (let at = 0; at < 8; at++) state[at] = state[at]! + sums[at]!
}
