// What must hold for the discrete distributions whatever their arguments.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import * as betaBinomial from '../../../app/statistics/distributions/beta-binomial.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'

const runs = { seed: 20261125, numRuns: 300 }
const share = fc.double({ min: 0, max: 1, noNaN: true })

describe('a distribution', () => {
  const draw = fc
    .record({ lotSize: fc.integer({ min: 0, max: 10_000_000 }), first: share, second: share, third: share })
    .map(({ lotSize, first, second, third }) => {
      const nonconforming = Math.round(first * lotSize)
      const sampleSize = Math.round(second ** 4 * lotSize)
      return { lotSize, nonconforming, sampleSize, found: Math.round(third * Math.min(nonconforming, sampleSize)) }
    })

  test('is the same when sample and nonconforming units change places, or conforming units are counted', () => {
    fc.assert(
      fc.property(draw, ({ found, lotSize, nonconforming, sampleSize }) => {
        const value = hypergeometric.moreThan(found, { lotSize, nonconforming, sampleSize })
        const swapped = hypergeometric.moreThan(found, {
          lotSize,
          nonconforming: sampleSize,
          sampleSize: nonconforming,
        })
        const conforming = { lotSize, nonconforming: lotSize - nonconforming, sampleSize }
        const mirrored = hypergeometric.atMost(sampleSize - found - 1, conforming)
        fc.pre(value === 0 || value > 1e-300)
        expect(Math.abs(swapped - value)).toBeLessThanOrEqual(1e-11 * value)
        expect(Math.abs(mirrored - value)).toBeLessThanOrEqual(1e-11 * value)
      }),
      runs,
    )
  })

  test('has quantiles that are the least number reached', () => {
    const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true })
    const shape = fc.double({ min: -2, max: 4, noNaN: true }).map((digits) => 10 ** digits)
    fc.assert(
      fc.property(probability, draw, shape, shape, (wanted, { found: _, ...lot }, a, b) => {
        const trials = { sampleSize: lot.sampleSize, fraction: a / (a + b) }
        const mixed = { sampleSize: lot.sampleSize % 5000, a, b }
        const least = [
          { quantile: hypergeometric.quantile(wanted, lot), atMost: (d: number) => hypergeometric.atMost(d, lot) },
          { quantile: binomial.quantile(wanted, trials), atMost: (d: number) => binomial.atMost(d, trials) },
          { quantile: betaBinomial.quantile(wanted, mixed), atMost: (d: number) => betaBinomial.atMost(d, mixed) },
        ]
        for (const { quantile, atMost } of least) {
          expect(atMost(quantile)).toBeGreaterThanOrEqual(wanted * (1 - 1e-11))
          if (quantile > 0) expect(atMost(quantile - 1)).toBeLessThan(wanted * (1 + 1e-11))
        }
      }),
      runs,
    )
  })
})
