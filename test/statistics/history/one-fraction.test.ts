// The chance of lots so different under the worst fraction: by an enumeration of its own, and where the other test is blind.
import { describe, expect, test } from 'vitest'
import type { LotUnderRule } from '../../../app/statistics/history/endings.ts'
import { homogeneityOfLots, leastChanceOfLots } from '../../../app/statistics/history/homogeneity.ts'
import { largestChanceOfOne } from '../../../app/statistics/history/one-fraction.ts'

const finished = (found: number, tested: number): LotUnderRule => ({ sampleSize: tested, tested, found })
const clean = (sampleSize: number, rejectionNumber = 1): LotUnderRule => ({
  sampleSize,
  tested: sampleSize,
  found: 0,
  rejectionNumber,
})
const stopped = (tested: number, sampleSize: number, rejectionNumber = 1): LotUnderRule => ({
  sampleSize,
  tested,
  found: rejectionNumber,
  rejectionNumber,
})
const times = (number: number, lot: LotUnderRule) => Array.from({ length: number }, () => lot)

/** Unit by unit, every sequence of conforming and nonconforming units on its own; shares nothing with the engine. */
function bySequences(lots: readonly LotUnderRule[]): number {
  const ends = lots.map(({ sampleSize, rejectionNumber = Number.POSITIVE_INFINITY }) => {
    const all: { t: number; x: number }[] = []
    const go = (t: number, x: number): unknown =>
      t === sampleSize || x >= rejectionNumber ? all.push({ t, x }) : [go(t + 1, x), go(t + 1, x + 1)]
    go(0, 0)
    return all
  })
  const power = (p: number, n: number) => (n === 0 ? 1 : p ** n)
  const ratio = (lot: { t: number; x: number }[]) => {
    const [t, x] = [lot.reduce((sum, each) => sum + each.t, 0), lot.reduce((sum, each) => sum + each.x, 0)]
    const likelihood = (of: { t: number; x: number }) => power(of.x / of.t, of.x) * power(1 - of.x / of.t, of.t - of.x)
    return lot.reduce((product, each) => product * likelihood(each), 1) / likelihood({ t, x })
  }
  const least = ratio(lots.map(({ tested, found }) => ({ t: tested, x: found }))) * (1 - 1e-9)
  let tuples: { t: number; x: number }[][] = [[]]
  for (const own of ends) tuples = tuples.flatMap((before) => own.map((end) => [...before, end]))
  const sums = tuples
    .filter((tuple) => ratio(tuple) >= least)
    .map((tuple) => ({ t: tuple.reduce((a, b) => a + b.t, 0), x: tuple.reduce((a, b) => a + b.x, 0) }))
  let largest = 0
  for (let p = 0.0005; p < 1; p += 0.0005)
    largest = Math.max(
      largest,
      sums.reduce((sum, { t, x }) => sum + p ** x * (1 - p) ** (t - x), 0),
    )
  return largest
}

describe('is that of an enumeration of every sequence, at 2,000 fractions', () => {
  test.each([
    { name: 'two finished lots', lots: [finished(0, 6), finished(4, 6)] },
    { name: 'one stopped at once, one clean', lots: [stopped(1, 7), clean(7)] },
    { name: 'three lots under three rules', lots: [clean(4), stopped(2, 4, 2), finished(1, 3)] },
    { name: 'lots that are alike', lots: [finished(1, 5), finished(1, 5)] },
  ])('$name', ({ lots }) => {
    const { chance, error } = largestChanceOfOne(lots)
    expect(error).toBeUndefined()
    const own = bySequences(lots)
    expect(chance).toBeGreaterThan(own - 1e-9)
    expect(chance).toBeLessThan(own * (1 + 1e-5) + 1e-9)
  })
})

describe('where every lot stops at its first nonconforming cord', () => {
  test('ten clean lots of 216 and ten that stopped at once differ, which the totals alone do not show', () => {
    const lots = [...times(10, clean(216)), ...times(10, stopped(1, 216))]
    expect(homogeneityOfLots(lots)).toBe(1)
    const { chance, error } = largestChanceOfOne(lots)
    expect(chance + 3 * (error ?? 0)).toBeLessThan(0.01)
  })

  test('twenty clean lots of 50 and one that stopped at its first cord are no sign of it', () => {
    // exactly one of 21 lots stops at its first cord and 20 are clean: at 1 in 1,001 alone 21 × .001 × .999^1000 = .0077; more besides
    expect(largestChanceOfOne([...times(20, clean(50)), stopped(1, 50)]).chance).toBeGreaterThan(0.01)
  })
})

test('a simulation comes within four of its errors of the enumeration', () => {
  const lots = [stopped(3, 40), clean(40), clean(40), clean(40)]
  const { chance, error } = largestChanceOfOne(lots) // 41 ends each: simulated
  if (error === undefined) throw new Error('these are too many ends to go through')
  // P(ratio as great | p) by summing over the four geometric ends, at 400 fractions
  expect(Math.abs(chance - bySums(3, 40))).toBeLessThan(4 * error)
})

/** Four lots of n, each testing up to its first nonconforming cord: the chance of a ratio as great as of one that stops at `at`. */
function bySums(at: number, n: number): number {
  const ends = Array.from({ length: n + 1 }, (_, k) => (k < n ? { t: k + 1, x: 1 } : { t: n, x: 0 }))
  const log = (x: number, t: number) => (x === 0 || x === t ? 0 : x * Math.log(x / t) + (t - x) * Math.log(1 - x / t))
  const least = log(1, at) - log(1, 3 * n + at) - 1e-9
  const orders = new Map<string, { t: number; x: number; times: number }>()
  for (const a of ends)
    for (const b of ends)
      for (const c of ends)
        for (const d of ends) {
          const [t, x] = [a.t + b.t + c.t + d.t, a.x + b.x + c.x + d.x]
          if (log(a.x, a.t) + log(b.x, b.t) + log(c.x, c.t) + log(d.x, d.t) - log(x, t) < least) continue
          const known = orders.get(`${t}/${x}`) ?? { t, x, times: 0 }
          orders.set(`${t}/${x}`, { ...known, times: known.times + 1 })
        }
  let largest = 0
  for (let i = 1; i < 400; i++) {
    const p = (i / 400) ** 2
    largest = Math.max(
      largest,
      [...orders.values()].reduce((sum, { t, x, times: number }) => sum + number * p ** x * (1 - p) ** (t - x), 0),
    )
  }
  return largest
}

describe('the least chance that the totals allow', () => {
  test.each([
    { name: 'one found in two lots of 60', lots: [finished(0, 60), finished(1, 60)], least: 0.5 },
    { name: 'nothing found', lots: [finished(0, 60), finished(0, 60)], least: 1 },
    // C(60, 6) of the ways to choose 6 of 120 (by hand: 0.01371)
    { name: 'six found in two lots of 60', lots: [finished(0, 60), finished(6, 60)], least: 50063860 / 3652745460 },
  ])('$name', ({ lots, least }) => expect(leastChanceOfLots(lots)).toBeCloseTo(least, 10))
})
