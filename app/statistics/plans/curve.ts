// The whole operating characteristic of a lot at once: acceptance for every number of nonconforming units it can hold.
import { count } from '../check.ts'
import { density } from '../distributions/hypergeometric.ts'
import { greatestInteger, leastInteger } from '../search.ts'
import { sharesReaching, undecidedBefore } from './passage.ts'
import { checkStages, type Stages } from './plan.ts'

/** h(found | lotSize, D, sampleSize) as a function of D. */
type Row = { readonly lotSize: number; readonly sampleSize: number; readonly found: number }

/** The weighted density at a D, and the sum of those at every greater D. */
type Sum = { nonconforming: number; value: number; total: number }

/** Eight bytes for each number nonconforming: 160 MB. */
const largestLot = 20_000_000

/** Sums keep this many binary digits more than a number can hold, so that a tail of 1e-300 has all of its own. */
const scale = 2 ** 90
const unscale = 2 ** -90

/** Below it a sum is not a full number once unscaled, and would take many times as long; the curve stays 0 there. */
const full = 2.3e-308 * scale

/** After so many steps of a recurrence the next value is computed anew. */
const stride = 1024

/**
 * Probability of acceptance for each number nonconforming, from 0 to N.
 *
 * One nonconforming unit more turns acceptance at the first stage into its opposite when it is drawn and exactly Ac of
 * the other n − 1 are nonconforming: P(X ≤ c | D) − P(X ≤ c | D + 1) = (n/N) · h(c | N − 1, D, n − 1). So that stage is
 * one row of densities summed from both ends; later stages add a row for each count they accept. Relative error below
 * 1e-11 down to 1e-300; a few nanoseconds a value.
 *
 * @param plan its stages; no stages accept without testing
 * @param lotSize N units, 0 to 20,000,000
 * @returns N + 1 probabilities, index D, never rising
 * @throws RangeError that names the argument, or the stage that is not one (a sample above the lot among them)
 * @example acceptanceCurveOfLot({ stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }, 480)[12] // 0.278
 */
export function acceptanceCurveOfLot(plan: Stages, lotSize: number): Float64Array {
  count('lotSize', lotSize, 0, largestLot)
  checkStages(plan, lotSize)

  const [first] = plan.stages
  if (!first) return new Float64Array(lotSize + 1).fill(1)
  const curve = firstStage(first.sampleSize, first.acceptanceNumber, lotSize)
  if (plan.stages.length > 1) addLaterStages(plan, curve, lotSize)
  return curve
}

function firstStage(n: number, c: number, N: number): Float64Array {
  const curve = new Float64Array(N + 1)
  if (c >= n) return curve.fill(1)
  if (c < 0) return curve
  const row = { lotSize: N - 1, sampleSize: n - 1, found: c }
  sumDownwards(curve, n / N, row)
  sumUpwards(curve, n / N, row)
  return curve
}

/** Fills the curve from its far end, where acceptance is small, down to a half or somewhat below. */
function sumDownwards(curve: Float64Array, weight: number, row: Row): void {
  const sum = farTail(weight * scale, row)
  while (sum.nonconforming >= row.found && sum.total < scale / 2) {
    sum.value = anew(sum.value, weight * scale, row, sum.nonconforming)
    fill(curve, row, sum)
  }
}

/**
 * One stride of the sum from the far end, apart because it is nearly all of the time. The four factors of the
 * recurrence are halved, so that the compiler keeps them as floating-point numbers: twice as fast, and as exact.
 */
function fill(curve: Float64Array, { lotSize: N, sampleSize: n, found: d }: Row, sum: Sum): void {
  let { nonconforming: D, value, total } = sum
  let nonconformingLeft = (D - d) / 2
  let conforming = (N - D + 1) / 2
  let nonconforming = D / 2
  let conformingLeft = (N - n + d - D + 1) / 2
  for (const last = Math.max(d, D - stride + 1); D >= last; D--) {
    total += value
    curve[D] = total * unscale
    value *= (nonconformingLeft * conforming) / (nonconforming * conformingLeft)
    nonconformingLeft -= 0.5
    conforming += 0.5
    nonconforming -= 0.5
    conformingLeft += 0.5
  }
  sum.nonconforming = D
  sum.value = value
  sum.total = total
}

/** Fills the curve from D = 0, where rejection is small, up to a half. */
function sumUpwards(curve: Float64Array, weight: number, row: Row): void {
  const { lotSize: N, sampleSize: n, found: d } = row
  const spare = N - n + d
  const matters = (D: number) => density(d, { ...row, nonconforming: D }) > 1e-30
  const from = leastInteger(d, greatestOf(row), matters)
  curve.fill(1, 0, from)
  let value = 0
  let rejected = 0
  for (let D = from, left = 0; rejected < 0.5; D++, left--) {
    if (left === 0) {
      value = anew(value, weight, row, D)
      left = stride
    }
    curve[D] = 1 - rejected
    rejected += value
    value *= ((D + 1) * (spare - D)) / ((D + 1 - d) * (N - D))
  }
}

/** The weighted densities of the far end, summed down to where the sum, unscaled, begins to be a full number. */
function farTail(weight: number, row: Row): Sum {
  const { lotSize: N, sampleSize: n, found: d } = row
  const spare = N - n + d
  let D = greatestInteger(greatestOf(row), spare, (D) => density(d, { ...row, nonconforming: D }) > 1e-290)
  let value = weight * density(d, { ...row, nonconforming: D })
  for (; D < spare && value > 1e-290; D++) value *= ((D + 1) * (spare - D)) / ((D + 1 - d) * (N - D))
  let total = 0
  for (; D >= d && total + value < full; D--) {
    total += value
    value *= ((D - d) * (N - D + 1)) / (D * (spare - D + 1))
  }
  return { nonconforming: D, value, total }
}

function addLaterStages(plan: Stages, curve: Float64Array, lotSize: number): void {
  const passages = undecidedBefore(plan)
  for (const [index, { sampleSize, acceptanceNumber }] of plan.stages.entries()) {
    const before = passages[index]
    if (index === 0 || !before || before.share.length === 0) continue
    const shares = sharesReaching(before, sampleSize, before.from, acceptanceNumber)
    for (const [i, share] of shares.entries())
      if (share > 0) addRow(curve, share, { lotSize, sampleSize, found: before.from + i })
  }
  for (let D = 0; D < curve.length; D++) curve[D] = Math.min(1, curve[D]!)
}

/** Adds weight × h(found | lotSize, D, sampleSize) to the curve at every D, outwards from the greatest. */
function addRow(curve: Float64Array, weight: number, row: Row): void {
  const { lotSize: N, sampleSize: n, found } = row
  if (found > n) return
  const greatest = greatestOf(row)
  addUpwards(curve, weight, row, greatest, N - n + found)
  addDownwards(curve, weight, row, greatest - 1)
}

/** Where the row is greatest. */
function greatestOf({ lotSize: N, sampleSize: n, found }: Row): number {
  return n === 0 ? found : Math.min(N - n + found, Math.max(found, Math.floor((found / n) * (N + 1))))
}

function addUpwards(curve: Float64Array, weight: number, row: Row, from: number, last: number): void {
  const { lotSize: N, sampleSize: n, found: d } = row
  const spare = N - n + d
  let value = 0
  for (let D = from, left = 0; D <= last; D++, left--) {
    if (left === 0) {
      value = anew(value, weight, row, D)
      left = stride
    }
    if (value < 1e-300) return
    curve[D]! += value
    value *= ((D + 1) * (spare - D)) / ((D + 1 - d) * (N - D))
  }
}

function addDownwards(curve: Float64Array, weight: number, row: Row, from: number): void {
  const { lotSize: N, sampleSize: n, found: d } = row
  const spare = N - n + d
  let value = 0
  for (let D = from, left = 0; D >= d; D--, left--) {
    if (left === 0) {
      value = anew(value, weight, row, D)
      left = stride
    }
    if (value < 1e-300) return
    curve[D]! += value
    value *= ((D - d) * (N - D + 1)) / (D * (spare - D + 1))
  }
}

/** The weighted density itself where it is a full number, else the value that the recurrence carried there. */
function anew(carried: number, weight: number, { lotSize, sampleSize, found }: Row, nonconforming: number): number {
  const exact = density(found, { lotSize, nonconforming, sampleSize })
  return exact > 1e-290 ? exact * weight : carried
}
