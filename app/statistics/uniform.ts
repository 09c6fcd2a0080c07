// Repeatable random numbers for simulations; a draw of units never comes from here, see draw.ts.

/**
 * A stream of numbers evenly spread over (0, 1), the same for the same seed on every machine.
 *
 * @param seed any whole number; its lower 32 bits count
 *
 * Source: C. Doty-Humphrey's small fast counting generator sfc32 (public domain, from memory), 12 steps to warm up.
 */
export function uniformNumbers(seed: number): () => number {
  let a = 0
  let b = seed | 0
  let c = 0x9e3779b9 | 0
  let counter = 1
  const next = () => {
    const word = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + word
    c |= 0
    return ((word >>> 0) + 0.5) / 4294967296
  }
  for (let step = 0; step < 12; step++) next()
  return next
}
