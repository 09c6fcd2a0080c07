// What the plan page believes of a supplier before a lot is tested: what was typed, or five finished lots of this item, or nothing.
import { describe, expect, test } from 'vitest'
import { priorOf } from '../../app/advice/prior.ts'
import { finishedLots } from '../../app/history/finished.ts'
import { lotOf } from '../support/counted-lot.ts'

const lots = (...counts: [number, number][]) =>
  finishedLots(counts.map(([size, found], at) => lotOf(at + 1, size, found)))

describe('the belief about a supplier', () => {
  test('is none of four finished lots, whatever they held', () => {
    expect(priorOf(lots([240, 0], [264, 40], [300, 2], [288, 0]), undefined)).toBeUndefined()
  })

  test('a typed belief wins over the record and is worth what was said', () => {
    const belief = priorOf(lots([100, 0], [100, 1], [100, 0], [100, 2], [100, 0]), { percent: 3, worth: 50 })
    expect(belief).toEqual({ origin: 'typed', a: 1.5, b: 48.5 })
  })

  test('a typed share without a worth is taken as known', () => {
    const belief = priorOf([], { percent: 3, worth: undefined })
    expect(belief).toMatchObject({ origin: 'fraction', fraction: 0.03 })
    expect((belief?.a ?? 0) / ((belief?.a ?? 0) + (belief?.b ?? 0))).toBeCloseTo(0.03, 12)
  })

  test('lots that differ more than chance: fitted to the lots themselves', () => {
    // Weil's litters under treatment, found of tested; maximum likelihood a 0.559048824307, b 1.59119482593 (recomputed to
    // 40 digits from the printed data of D. A. Williams 1975, Biometrics 31; the data from memory).
    const litters: [number, number][] = '12/0 11/0 10/0 9/0 11/1 10/1 10/1 9/1 9/1 5/1 9/2 7/3 10/5 6/3 10/7 7/7'
      .split(' ')
      .map((litter) => {
        const [tested = 0, found = 0] = litter.split('/').map(Number)
        return [tested, found]
      })
    const belief = priorOf(lots(...litters), undefined)
    expect(belief).toMatchObject({ origin: 'lots', lots: 16 })
    expect((belief?.a ?? 0) / 0.559048824307).toBeCloseTo(1, 6)
    expect((belief?.b ?? 0) / 1.59119482593).toBeCloseTo(1, 6)
  })
})
