// What the advice believes of a supplier before a lot is tested.
import { describe, expect, test } from 'vitest'
import { priorOf } from '../../app/advice/prior.ts'
import { surveyPrior } from '../../app/history/rates.ts'

const lots = (...counts: [number, number][]) => counts.map(([sampleSize, found]) => ({ sampleSize, found }))

describe('the belief about a supplier', () => {
  test('a new one: the surveys, worth two tested cords', () => {
    const belief = priorOf([], lots([400, 3], [300, 12]), undefined)
    expect(belief).toMatchObject({ origin: 'surveys', lots: 0, ...surveyPrior })
    expect(belief.a + belief.b).toBeCloseTo(2, 12)
  })

  test('a typed belief wins over the record and is worth what was said', () => {
    const belief = priorOf(lots([100, 0], [100, 1]), [], { percent: 3, worth: 50 })
    expect(belief).toMatchObject({ origin: 'typed', a: 1.5, b: 48.5 })
  })

  test('lots that differ more than chance: fitted to the lots themselves', () => {
    // Weil's litters under treatment, found of tested; maximum likelihood a 0.559048824307, b 1.59119482593 (recomputed to
    // 40 digits from the printed data of D. A. Williams 1975, Biometrics 31; the data from memory).
    const litters = lots(
      ...([
        [12, 0],
        [11, 0],
        [10, 0],
        [9, 0],
        [11, 1],
        [10, 1],
        [10, 1],
        [9, 1],
        [9, 1],
        [5, 1],
        [9, 2],
        [7, 3],
        [10, 5],
        [6, 3],
        [10, 7],
        [7, 7],
      ] as [number, number][]),
    )
    const belief = priorOf(litters, [], undefined)
    expect(belief.origin).toBe('own lots')
    expect(belief.a / 0.559048824307).toBeCloseTo(1, 6)
    expect(belief.b / 1.59119482593).toBeCloseTo(1, 6)
  })

  test('few lots: own cords upon the surveys, counted by hand', () => {
    const belief = priorOf(lots([48, 0], [52, 1]), lots([10, 1]), undefined)
    expect(belief).toMatchObject({ origin: 'own cords', beneath: 'surveys', own: { sampleSize: 100, found: 1 } })
    expect(belief.a).toBeCloseTo(2.2, 12)
    expect(belief.b).toBeCloseTo(99.8, 12)
  })

  test('few lots beside suppliers that differ: own cords upon what suppliers are like', () => {
    const others = lots([200, 1], [200, 20], [200, 60], [200, 3])
    const belief = priorOf(lots([50, 0]), others, undefined)
    expect(belief).toMatchObject({ origin: 'own cords', beneath: 'other suppliers' })
    expect(belief.a / (belief.a + belief.b)).toBeGreaterThan(0)
    expect(belief.a / (belief.a + belief.b)).toBeLessThan(84 / 800)
  })

  test('lots nobody tested tell nothing', () => {
    expect(priorOf(lots([0, 0]), [], undefined)).toMatchObject({ origin: 'surveys', lots: 0 })
  })
})
