// A tester that errs: what it flags, what slips through, and the true fraction behind what it flagged.
import { describe, expect, test } from 'vitest'
import {
  correctedFraction,
  correctedInterval,
  screeningOf,
} from '../../../app/statistics/measurement/misclassification.ts'

describe('a tester that errs', () => {
  // Source: a scenario of the trade, 500 cords, 3 % nonconforming, 10 % missed, 1 % false alarms; arithmetic by hand.
  test('screening 500 cords flags 18.35, misses 1.5 and sends out 0.311 %', () => {
    const screening = screeningOf(0.03, { missed: 0.1, falseAlarms: 0.01 })
    expect(500 * screening.flagged).toBeCloseTo(18.35, 10)
    expect(screening.rightlyFlagged).toBeCloseTo(13.5 / 18.35, 12)
    expect(500 * screening.escaping).toBeCloseTo(1.5, 10)
    expect(screening.outgoing).toBeCloseTo(1.5 / (500 - 18.35), 12)
  })

  test('nothing flagged or nothing passed leaves no share that is not a number', () => {
    expect(screeningOf(0, { missed: 0, falseAlarms: 0 })).toEqual({
      flagged: 0,
      rightlyFlagged: 0,
      escaping: 0,
      outgoing: 0,
    })
    expect(screeningOf(1, { missed: 0, falseAlarms: 0 })).toEqual({
      flagged: 1,
      rightlyFlagged: 1,
      escaping: 0,
      outgoing: 0,
    })
  })

  test.each([0, 0.02, 0.5, 1])('the correction leads back to a true fraction of %d', (fraction) => {
    const errors = { missed: 0.08, falseAlarms: 0.03 }
    expect(correctedFraction(screeningOf(fraction, errors).flagged, errors)).toBeCloseTo(fraction, 13)
  })

  test('fewer flagged than false alarms alone would give means none, more than can be means all', () => {
    expect(correctedFraction(0.01, { missed: 0.1, falseAlarms: 0.02 })).toBe(0)
    expect(correctedFraction(0.95, { missed: 0.1, falseAlarms: 0.02 })).toBe(1)
  })

  // Source: base R 4.2, (qbeta(c(.025, .975), c(10, 11), c(191, 190)) − 0.01) ÷ 0.89.
  test('10 of 200 flagged with 10 % missed and 1 % false alarms', () => {
    const evidence = { sampleSize: 200, found: 10, confidence: 0.95 }
    const { lower, upper } = correctedInterval(evidence, { missed: 0.1, falseAlarms: 0.01 })
    expect(lower).toBeCloseTo(0.0159934443507, 9)
    expect(upper).toBeCloseTo(0.0899185816869, 9)
  })

  test('a tester that flags both kinds alike is refused', () => {
    expect(() => correctedFraction(0.1, { missed: 0.5, falseAlarms: 0.5 })).toThrow(
      'missed + falseAlarms must be below 1, not 1',
    )
    expect(() => correctedFraction(1.1, { missed: 0, falseAlarms: 0 })).toThrow('observed must be from 0 to 1, not 1.1')
    expect(() => screeningOf(-0.1, { missed: 0, falseAlarms: 0 })).toThrow('fraction must be from 0 to 1, not -0.1')
    expect(() => screeningOf(0.1, { missed: 2, falseAlarms: 0 })).toThrow('missed must be from 0 to 1, not 2')
    expect(() => screeningOf(0.1, { missed: 0, falseAlarms: Number.NaN })).toThrow(
      'falseAlarms must be from 0 to 1, not NaN',
    )
  })
})
