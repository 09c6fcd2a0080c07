// Exact bounds over random samples of large lots, and over every sample of every lot of up to 60 units.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { lowerBoundOfFraction, upperBoundOfFraction } from '../../../app/statistics/bounds/fraction.ts'
import { lowerBoundInLot, upperBoundInLot } from '../../../app/statistics/bounds/lot.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'

const runs = { seed: 20261125, numRuns: 300 }
const share = fc.double({ min: 0, max: 1, noNaN: true })

describe('exact bounds', () => {
  test('invert the test of a lot of any size', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000_000 }), share, share, (lotSize, first, second) => {
        const sampleSize = Math.round(first ** 3 * lotSize)
        const found = Math.floor(second ** 6 * sampleSize)
        const upper = upperBoundInLot({ lotSize, sampleSize, found, confidence: 0.95 })
        const lower = lowerBoundInLot({ lotSize, sampleSize, found, confidence: 0.95 })
        const atMost = (nonconforming: number) => hypergeometric.atMost(found, { lotSize, nonconforming, sampleSize })
        const atLeast = (nonconforming: number) =>
          hypergeometric.moreThan(found - 1, { lotSize, nonconforming, sampleSize })
        expect(atMost(upper)).toBeGreaterThan(0.05)
        if (upper < lotSize) expect(atMost(upper + 1)).toBeLessThanOrEqual(0.05 * (1 + 2e-12))
        expect(atLeast(lower)).toBeGreaterThan(0.05)
        if (lower > 0) expect(atLeast(lower - 1)).toBeLessThanOrEqual(0.05 * (1 + 2e-12))
      }),
      runs,
    )
  })

  test('invert the test of a process', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20_000 }), share, (sampleSize, part) => {
        const found = Math.floor(part ** 4 * sampleSize)
        const upper = upperBoundOfFraction({ sampleSize, found, confidence: 0.99 })
        const lower = lowerBoundOfFraction({ sampleSize, found, confidence: 0.99 })
        if (upper < 1) expect(binomial.atMost(found, { sampleSize, fraction: upper })).toBeCloseTo(0.01, 9)
        if (lower > 0) expect(binomial.moreThan(found - 1, { sampleSize, fraction: lower })).toBeCloseTo(0.01, 9)
      }),
      runs,
    )
  })

  test.each([0.8, 0.9, 0.95, 0.99])(
    'cover the lot at %d or more in every sample of every lot of up to 60',
    (confidence) => {
      for (let lotSize = 1; lotSize <= 60; lotSize++)
        for (let sampleSize = 0; sampleSize <= lotSize; sampleSize++) {
          const bounds = Array.from({ length: sampleSize + 1 }, (_, found) => ({
            upper: upperBoundInLot({ lotSize, sampleSize, found, confidence }),
            lower: lowerBoundInLot({ lotSize, sampleSize, found, confidence }),
          }))
          for (let D = 0; D <= lotSize; D++) {
            let above = 0
            let below = 0
            for (const [found, { upper, lower }] of bounds.entries()) {
              const chance = hypergeometric.density(found, { lotSize, nonconforming: D, sampleSize })
              if (upper >= D) above += chance
              if (lower <= D) below += chance
            }
            if (!(Math.min(above, below) >= confidence - 1e-12))
              expect.unreachable(`lot ${lotSize}, sample ${sampleSize}, ${D} nonconforming: covered ${above}, ${below}`)
          }
        }
    },
  )

  test('cover the fraction of a process at 95 % or more, for every sample of up to 60', () => {
    for (let sampleSize = 1; sampleSize <= 60; sampleSize++) {
      const bounds = Array.from({ length: sampleSize + 1 }, (_, found) => ({
        upper: upperBoundOfFraction({ sampleSize, found, confidence: 0.95 }),
        lower: lowerBoundOfFraction({ sampleSize, found, confidence: 0.95 }),
      }))
      // Coverage is least just beyond a bound: there and on a grid.
      const edges = bounds.flatMap(({ upper, lower }) => [upper + 1e-9, lower - 1e-9])
      const grid = Array.from({ length: 99 }, (_, i) => (i + 1) / 100)
      for (const fraction of [...edges, ...grid].filter((p) => p > 0 && p < 1)) {
        const covered = (covers: (bound: { upper: number; lower: number }) => boolean) =>
          bounds.reduce((sum, bound, d) => sum + (covers(bound) ? binomial.density(d, { sampleSize, fraction }) : 0), 0)
        expect(covered(({ upper }) => upper >= fraction)).toBeGreaterThanOrEqual(0.95 - 1e-7)
        expect(covered(({ lower }) => lower <= fraction)).toBeGreaterThanOrEqual(0.95 - 1e-7)
      }
    }
  })
})
