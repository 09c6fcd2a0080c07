// The trend of a series: its limits against sums term by term, and which lots it counts and how.
import { describe, expect, test } from 'vitest'
import type { CountedLot } from '../../../app/history/counted-lots.ts'
import { latestSignal, trendOf } from '../../../app/history/series/trend.ts'
import { lotOf } from '../../support/counted-lot.ts'

/** A sample of `sampleSize` from a larger lot, of which testing may have stopped. */
function sampled(lotId: number, sampleSize: number, recorded: number, found: number): CountedLot {
  const at = new Date(Date.UTC(2031, 0, lotId))
  const sample = { recorded, found }
  const decided = { outcome: 'returned', at, verdict: 'reject', ...sample } as const
  const stages = [{ sampleSize, acceptanceNumber: 0, rejectionNumber: 1 }]
  return lotOf(lotId, 500, 0, {
    planKind: 'single',
    acceptanceNumber: 0,
    sampleSize,
    stages,
    sample,
    all: sample,
    decided,
  })
}

const prior = { a: 1.2, b: 0.8 }

/** P(X = x) of n cords whose share is beta distributed, term by term from its recurrence: an arithmetic apart from the engine's. */
function betaBinomial(n: number, a: number, b: number): number[] {
  let term = 1
  for (let j = 0; j < n; j++) term *= (b + j) / (a + b + j)
  const terms = [term]
  for (let x = 0; x < n; x++) {
    term *= ((n - x) / (x + 1)) * ((a + x) / (b + n - x - 1))
    terms.push(term)
  }
  return terms
}

describe('the trend of a series', () => {
  test('has none while there is no lot after the first ones', () => {
    expect(trendOf([], prior)).toBeUndefined()
    expect(trendOf([lotOf(1, 150, 1), lotOf(2, 150, 0)], prior)).toBeUndefined()
    // Two lots of 90 cords are not yet 200: the third belongs to the first ones too.
    expect(trendOf([lotOf(1, 90, 0), lotOf(2, 90, 1), lotOf(3, 90, 0)], prior)).toBeUndefined()
    expect(trendOf([lotOf(1, 90, 0), lotOf(2, 90, 1), lotOf(3, 90, 0), lotOf(4, 90, 0)], prior)?.base).toEqual({
      lots: 3,
      sampleSize: 270,
      found: 1,
    })
  })

  test('has limits and no cumulative sum where lots hold more cords than the sum is designed for', () => {
    const clean = (size: number) =>
      trendOf(
        [1, 2, 3].map((lot) => lotOf(lot, size, 0)),
        prior,
      )
    expect(clean(100_000)?.cusum).toBeDefined()
    expect(clean(100_001)).toMatchObject({ cusum: undefined, points: [{}, {}, { signal: 'none', sum: undefined }] })
  })

  test.each([
    [120, 3],
    [300, 9],
    [40, 0],
  ])(
    'sets limits for %i cords that are passed at most 1.35 of 1,000 times on each side, the least such',
    (size, found) => {
      const trend = trendOf([lotOf(1, 150, 4), lotOf(2, 150, 8), lotOf(3, size, found)], prior)
      const { limits = { lower: 0, upper: 0 }, chance } = trend?.points[2] ?? {}
      const law = betaBinomial(size, prior.a + 12, prior.b + 288)
      const from = (x: number) => law.slice(x).reduce((sum, term) => sum + term, 0)
      const upTo = (x: number) => law.slice(0, x + 1).reduce((sum, term) => sum + term, 0)
      expect(upTo(size)).toBeCloseTo(1, 10)
      expect(from(limits.upper + 1)).toBeLessThanOrEqual(0.00135)
      expect(from(limits.upper)).toBeGreaterThan(0.00135)
      expect(limits.lower === 0 || upTo(limits.lower - 1) < 0.00135).toBe(true)
      expect(upTo(limits.lower)).toBeGreaterThanOrEqual(0.00135)
      expect(chance).toBeCloseTo(from(found), 10)
      expect(trend?.centre).toBeCloseTo(13.2 / 302, 12) // posterior mean by hand
    },
  )

  test('signals a lot beyond its limits, and the latest lot is the series’ signal', () => {
    const first = [lotOf(1, 150, 1), lotOf(2, 150, 0)]
    const worse = trendOf([...first, lotOf(3, 150, 12)], prior)
    expect(worse?.points.map(({ signal }) => signal)).toEqual(['none', 'none', 'above'])
    expect(latestSignal(worse)).toMatchObject({ lotId: 3 })
    expect(latestSignal(trendOf([...first, lotOf(3, 150, 12), lotOf(4, 150, 0)], prior))).toBeUndefined()
    expect(latestSignal(undefined)).toBeUndefined()
    const better = trendOf([lotOf(1, 150, 60), lotOf(2, 150, 60), lotOf(3, 150, 2)], prior)
    expect(better?.points[2]?.signal).toBe('below')
  })

  test('sees a small rise that lasts by the cumulative sum, where no single lot is beyond its limits', () => {
    const lots = [...[1, 2].map((id) => lotOf(id, 200, 2)), ...[3, 4, 5, 6, 7, 8, 9].map((id) => lotOf(id, 100, 4))]
    const trend = trendOf(lots, prior)
    expect(trend?.points.every(({ signal }) => signal === 'none')).toBe(true)
    expect(trend?.points.some(({ sumSignals }) => sumSignals)).toBe(true)
    expect(trend?.cusum?.inControl).toBeGreaterThanOrEqual(370)
    expect(trend?.cusum?.outOfControl).toBeLessThan(20)
    expect(trendOf([lotOf(1, 150, 60), lotOf(2, 150, 60), lotOf(3, 150, 60)], prior)?.cusum).toBeUndefined()
  })

  test('has no cumulative sum over lots of one cord, however rare a nonconforming cord is', () => {
    const lots = [lotOf(1, 1_000_000, 0), lotOf(2, 1_000_000, 0), lotOf(3, 1, 0)]
    expect(trendOf(lots, { a: 0.1, b: 10 })?.cusum).toBeUndefined()
  })

  test('counts a stopped lot as its planned sample with at least so many, which is never a sign of fewer', () => {
    const trend = trendOf([lotOf(1, 150, 60), lotOf(2, 150, 60), sampled(3, 80, 3, 1)], prior)
    expect(trend?.points[2]).toMatchObject({ counted: 80, found: 1, stopped: true, signal: 'none' })
  })

  test('counts of a double plan that ended with its first sample that sample alone', () => {
    const stages = [
      { sampleSize: 50, acceptanceNumber: 1, rejectionNumber: 4 },
      { sampleSize: 100, acceptanceNumber: 4, rejectionNumber: 5 },
    ]
    const first = [lotOf(1, 150, 1), lotOf(2, 150, 0)]
    const recording = (recorded: number) =>
      trendOf([...first, { ...sampled(3, 100, recorded, 1), stages }], prior)?.points[2]
    expect(recording(50)).toMatchObject({ counted: 50, stopped: false })
    expect(recording(100)).toMatchObject({ counted: 100, stopped: false })
    expect(recording(73)).toMatchObject({ counted: 100, stopped: true })
  })

  test('takes of every lot the sample alone, of a screened one too', () => {
    const screened = (lotId: number) => ({ ...sampled(lotId, 120, 120, 3), all: { recorded: 500, found: 40 } })
    const trend = trendOf([screened(1), screened(2), screened(3)], prior)
    expect(trend?.base).toEqual({ lots: 2, sampleSize: 240, found: 6 })
    expect(trend?.points[2]).toMatchObject({ counted: 120, found: 3, stopped: false })
  })

  test('leaves isolated lots out', () => {
    const lots = [lotOf(1, 150, 1), lotOf(2, 150, 0), lotOf(3, 150, 30, { isolated: true }), lotOf(4, 150, 0)]
    expect(trendOf(lots, prior)?.points.map(({ lotId }) => lotId)).toEqual([1, 2, 4])
  })
})
