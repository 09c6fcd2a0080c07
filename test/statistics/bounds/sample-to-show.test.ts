// The sample that a claim about a lot takes, against exact arithmetic for every small lot.
import { describe, expect, test } from 'vitest'
import { upperBoundInLot } from '../../../app/statistics/bounds/lot.ts'
import { sampleToShow } from '../../../app/statistics/bounds/sample-to-show.ts'
import { exactAtMost } from '../../support/exact.ts'

describe('the sample that shows a claim', () => {
  // Source: exact whole-number arithmetic, every lot up to 24 units; the sample just smaller does not show it.
  test('is the smallest that does, for every small lot, claim and number found', () => {
    for (const N of [1, 2, 7, 24])
      for (let fewerThan = 1; fewerThan <= N; fewerThan++)
        for (let found = 0; found < fewerThan; found++) {
          const n = sampleToShow({ lotSize: N, fewerThan, found, confidence: 0.9 })
          const risk = 0.1 + 1e-12
          expect(exactAtMost({ N, D: fewerThan, n, c: found })).toBeLessThanOrEqual(risk)
          if (n > found + 1) expect(exactAtMost({ N, D: fewerThan, n: n - 1, c: found })).toBeGreaterThan(risk)
          expect(upperBoundInLot({ lotSize: N, sampleSize: n, found, confidence: 0.9 })).toBeLessThan(fewerThan)
        }
  })

  // Source: C(480 − n, 5) / C(480, 5) falls to 0.05 at n = 216; 90 of 100 miss a single one in exactly 10 of 100 draws.
  test('is 216 clean cords for fewer than 5 of 480, and 90 of 100 for none at 90 %', () => {
    expect(sampleToShow({ lotSize: 480, fewerThan: 5, found: 0, confidence: 0.95 })).toBe(216)
    expect(sampleToShow({ lotSize: 100, fewerThan: 1, found: 0, confidence: 0.9 })).toBe(90)
  })

  test('is refused by name where the sample itself holds the claimed number', () => {
    expect(() => sampleToShow({ lotSize: 480, fewerThan: 5, found: 5, confidence: 0.95 })).toThrow('found must be')
    expect(() => sampleToShow({ lotSize: 480, fewerThan: 481, found: 0, confidence: 0.95 })).toThrow('fewerThan')
  })
})
