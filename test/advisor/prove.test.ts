// What a sample proved, against bounds recomputed in R and published intervals.
import { describe, expect, test } from 'vitest'
import { prove } from '../../app/advisor/prove.ts'

const asking = (lotSize: number, tested: number, found: number, confidence = 0.95, claim = 1) =>
  prove({ lotSize, tested, found, confidence, claim, taken: { kind: 'fixed' } })

describe('what a sample proved', () => {
  // Source: largest D with P(X ≤ found | N, D, n) above the risk, recomputed in R (phyper), at 95 and at 90 %.
  test.each([
    [100, 10, 0, 24, 19],
    [100, 29, 0, 8, 6],
    [100, 45, 0, 4, 3],
    [500, 50, 0, 27, 21],
    [500, 50, 1, 43, 36],
    [1000, 80, 0, 35, 27],
    [1000, 80, 2, 74, 63],
    [240, 32, 0, 20, 15],
    [50, 8, 0, 14, 11],
    [2000, 125, 3, 119, 103],
    [500, 225, 0, 4, 3],
    [1000, 258, 0, 9, 7],
  ])(
    'of a lot of %i, %i tested and %i not conforming: at most %i (95 %%) and %i (90 %%) in it',
    (N, n, d, at95, at90) => {
      expect(asking(N, n, d).lot.atMost).toBe(at95)
      expect(asking(N, n, d).untested.atMost).toBe(at95 - d)
      expect(asking(N, n, d, 0.9).lot.atMost).toBe(at90)
    },
  )

  // Source: exact one-sided bounds 1 − 0.05^(1/n), and qbeta in R for 2 of 80; two-sided: the same table of published recomputations.
  test.each([
    [59, 0, 0.04951],
    [60, 0, 0.0487],
    [20, 0, 0.13911],
    [80, 2, 0.0766109],
  ])('of a process, %i tested and %i not conforming: at most the fraction %d', (n, d, upper) => {
    expect(asking(1000, n, d).fraction.atMost).toBeCloseTo(upper, 5)
  })

  // Source: NIST/SEMATECH e-Handbook 7.2.4.2, 4 of 20 at 90 % two-sided: .071354 and .401029 (from memory, recomputed in R).
  test('gives the two-sided interval of the handbook for 4 of 20, whose end is the one-sided bound at 95 %', () => {
    const { interval } = asking(1000, 20, 4, 0.9)
    expect(interval.lower).toBeCloseTo(0.0713539, 6)
    expect(interval.upper).toBeCloseTo(0.4010281, 6)
    expect(asking(1000, 20, 4, 0.95).fraction.atMost).toBeCloseTo(interval.upper, 9)
  })

  test('knows the lot once every cord is tested', () => {
    expect(asking(480, 480, 3)).toMatchObject({ lot: { atLeast: 3, atMost: 3 }, untested: { atLeast: 0, atMost: 0 } })
  })

  test('proves nothing with nothing tested', () => {
    const nothing = asking(480, 0, 0)
    expect(nothing.untested).toEqual({ atLeast: 0, atMost: 480 })
    expect(nothing.fraction).toEqual({ atLeast: 0, atMost: 1 })
  })
})

describe('what a claim would have taken', () => {
  test('is 216 clean cords to say fewer than 5 of 480', () => {
    expect(asking(480, 48, 0, 0.95, 5).needed).toEqual({ kind: 'open', clean: 216, withFound: undefined })
    expect(asking(480, 216, 0, 0.95, 5).needed.kind).toBe('shown')
    expect(asking(480, 215, 0, 0.95, 5).needed.kind).toBe('open')
  })

  test('is more with some found, and out of reach with as many found as claimed', () => {
    expect(asking(480, 48, 1, 0.95, 5).needed).toMatchObject({ kind: 'open', clean: 216, withFound: 315 })
    expect(asking(480, 48, 5, 0.95, 5).needed).toEqual({ kind: 'refuted' })
  })
})
