// Suppliers' rates against the posterior means of published groups.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { shrunkRate, supplierRates } from '../../../app/statistics/history/rates.ts'
import { publishedRows } from '../../published/rows.ts'

describe('rates drawn towards the prior', () => {
  test('the 71st group of rats: 4 of 14 under the moment prior of the other 70', () => {
    // Gelman et al., Bayesian Data Analysis, ch. 5: mean .223, standard deviation .083 (from memory; recomputed).
    const { belief, mean } = shrunkRate({
      prior: { a: 1.35614939103193, b: 8.61505789132079 },
      own: { sampleSize: 14, found: 4 },
      confidence: 0.9,
    })
    expect(mean).toBeCloseTo(0.223440952637169, 12)
    const worth = belief.a + belief.b
    expect(Math.sqrt((mean * (1 - mean)) / (worth + 1))).toBeCloseTo(0.0833583019469231, 12)
  })

  test('the same raw 0 % is another rate for 10 units than for 20: posterior means under the fitted prior', () => {
    const groups = z.object({
      'lots [sampleSize, found, times]': z.array(z.tuple([z.number(), z.number(), z.number()])),
    })
    const [data] = publishedRows('bbfit-tarone_rats71', groups, z.unknown())
    const [means] = publishedRows('eb-rats71', z.unknown(), z.record(z.string(), z.number()))
    const suppliers = (data?.input['lots [sampleSize, found, times]'] ?? []).flatMap(([sampleSize, found, times]) =>
      Array.from({ length: times }, () => ({ sampleSize, found })),
    )
    const { priorFrom, prior, rates } = supplierRates({ suppliers, stated: { a: 1, b: 1 }, confidence: 0.9 })
    expect(priorFrom).toBe('suppliers')
    expect(rates[0]).toEqual(shrunkRate({ prior, own: suppliers[0] ?? { sampleSize: 0, found: 0 }, confidence: 0.9 }))
    let compared = 0
    for (const [group, mean] of Object.entries(means?.recomputed ?? {})) {
      const [found = 0, sampleSize = 0] = group.split('/').map(Number)
      expect(shrunkRate({ prior, own: { sampleSize, found }, confidence: 0.9 }).mean, group).toBeCloseTo(mean, 9)
      compared += 1
    }
    expect(compared).toBe(8)
  })

  test('the interval holds its share of the posterior, and a new supplier is the prior', () => {
    const rate = shrunkRate({ prior: { a: 1, b: 1 }, own: { sampleSize: 0, found: 0 }, confidence: 0.9 })
    expect(rate).toMatchObject({ mean: 0.5, ownShare: 0 })
    expect(rate.lower).toBeCloseTo(0.05, 14) // the uniform distribution
    expect(rate.upper).toBeCloseTo(0.95, 14)
  })

  test('where the suppliers cannot say how much they differ, the reader’s prior serves and the answer says so', () => {
    const stated = { a: 0.2, b: 1.8 }
    const rates = supplierRates({
      suppliers: [
        { sampleSize: 80, found: 0 },
        { sampleSize: 20, found: 0 },
      ],
      stated,
      confidence: 0.9,
    })
    expect(rates).toMatchObject({ priorFrom: 'reader', prior: stated, fit: { reason: 'none found' } })
    expect(rates.rates[0]?.mean).toBeCloseTo(0.2 / 82, 14)
    expect(() => shrunkRate({ prior: { a: 1, b: 1 }, own: { sampleSize: 1, found: 2 }, confidence: 0.9 })).toThrow(
      'own.found',
    )
  })
})
