// The few special functions under the distributions, kept exact where a subtraction would lose digits.

/**
 * The part of a product that rounding dropped: a·b = product + productError(a, b, product), exactly.
 * Means such as n·p need it: far in a tail of a large lot half a last digit of the mean moves the twelfth digit of the probability.
 *
 * Source: T. J. Dekker (1971), Numerische Mathematik 18, 224–242 (from memory; checked against whole numbers in the test).
 */
export function productError(a: number, b: number, product: number): number {
  const aHigh = upperHalf(a)
  const bHigh = upperHalf(b)
  const aLow = a - aHigh
  const bLow = b - bHigh
  return aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow)
}

/** The part of a sum that rounding dropped: a + b = sum + sumError(a, b, sum), exactly (D. E. Knuth's two-sum, from memory). */
export function sumError(a: number, b: number, sum: number): number {
  const bRounded = sum - a
  return a - (sum - bRounded) + (b - bRounded)
}

/**
 * Stirling's error δ(x) = ln Γ(x + 1) − ½·ln(2πx) − x·ln x + x for x ≥ 0; by convention 0 at x = 0, where {@link rootFactor} is 1.
 * Asymptotic series from 10 on, whole numbers below 16 from a table, others stepped up by the recurrence of Γ.
 *
 * Source: C. Loader (2000), Fast and accurate computation of binomial probabilities (from memory); the table was computed at 50 digits.
 */
export function stirlingError(x: number): number {
  if (x < 16) {
    const tabled = stirlingErrors[x]
    if (tabled !== undefined) return tabled
  }
  let error = 0
  let from = x
  for (; from < 10; from++) error += (from + 0.5) * Math.log1p(1 / from) - 1
  const square = 1 / (from * from)
  return (
    error +
    (1 / 12 -
      square *
        (1 / 360 -
          square *
            (1 / 1260 -
              square *
                (1 / 1680 -
                  square * (1 / 1188 - square * (691 / 360360 - square * (1 / 156 - square * (3617 / 122400)))))))) /
      from
  )
}

/** The square of the power of x that Stirling's formula takes out of x!: 2πx, and 1 at x = 0. */
export function rootFactor(x: number): number {
  return x > 0 ? 2 * Math.PI * x : 1
}

/**
 * Deviance of an observed value from its expectation: observed·ln(observed ÷ expected) − observed + expected, never below 0.
 * The difference is asked for beside the expectation, because its relative error decides the digits of a far tail.
 *
 * @param observed x ≥ 0
 * @param expected above 0 unless `observed` is 0
 * @param excess observed − expected, without the rounding of either
 *
 * Source: the deviance term bd0 of C. Loader (2000), with the series of atanh carried to v = 1/2.
 */
export function deviance(observed: number, expected: number, excess: number): number {
  if (observed === 0) return expected
  const v = excess / (observed + expected)
  if (v > 0.5 || v < -0.5) return observed * Math.log(observed / expected) - excess
  const square = v * v
  let power = 2 * observed * v
  let total = excess * v
  for (let odd = 3; ; odd += 2) {
    power *= square
    const next = total + power / odd
    if (!(Math.abs(next - total) > 0)) return next
    total = next
  }
}

/** The four cells of a table with two rows and two columns; real numbers, none below 0. */
export type Fourfold = { upperLeft: number; upperRight: number; lowerLeft: number; lowerRight: number }

/**
 * Product of the factorials of both row and both column sums, divided by those of the total and of the four cells:
 * the hypergeometric probability of the table, in constant time whatever the sizes. Factorials of real numbers are Γ(x + 1).
 *
 * Source: saddle-point form of C. Loader (2000), written symmetrically in the table: each factorial is √(2πx)·xˣ·e⁻ˣ·e^δ(x), and
 * the powers of the nine factorials collect into four deviances from the cells expected under independence. By logarithms of
 * factorials a lot of 1,000,000 would keep nine digits.
 */
export function fourfold({ upperLeft: a, upperRight: b, lowerLeft: c, lowerRight: d }: Fourfold): number {
  const upper = a + b
  const lower = c + d
  const left = a + c
  const right = b + d
  const total = upper + lower
  const excess = excessOf(a, b, c, d, total)
  const errors =
    stirlingError(upper) +
    stirlingError(lower) +
    stirlingError(left) +
    stirlingError(right) -
    stirlingError(total) -
    (stirlingError(a) + stirlingError(b) + stirlingError(c) + stirlingError(d))
  const deviances =
    deviance(a, upper * (left / total), excess) +
    deviance(b, upper * (right / total), -excess) +
    deviance(c, lower * (left / total), -excess) +
    deviance(d, lower * (right / total), excess)
  const roots =
    ((rootFactor(upper) / rootFactor(a)) * (rootFactor(lower) / rootFactor(d)) * (rootFactor(left) / rootFactor(c))) /
    (rootFactor(total) * (rootFactor(b) / rootFactor(right)))
  return Math.sqrt(roots) * Math.exp(errors - deviances)
}

/** What the upper left cell has above its expectation, (ad − bc) ÷ total, with both products exact. */
function excessOf(a: number, b: number, c: number, d: number, total: number): number {
  const along = a * d
  const across = b * c
  return (along - across + (productError(a, d, along) - productError(b, c, across))) / total
}

/** The upper 26 bits of a number (Veltkamp's split). */
function upperHalf(x: number): number {
  const scaled = 134217729 * x
  return scaled - (scaled - x)
}

const stirlingErrors = [
  0, 0.08106146679532726, 0.0413406959554093, 0.02767792568499834, 0.020790672103765093, 0.016644691189821193,
  0.013876128823070748, 0.01189670994589177, 0.010411265261972096, 0.009255462182712733, 0.00833056343336287,
  0.007573675487951841, 0.00694284010720953, 0.006408994188004207, 0.0059513701127588475, 0.005554733551962801,
]
