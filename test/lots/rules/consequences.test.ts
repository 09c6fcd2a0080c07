// What the four choices are expected to cost: bounds from the golden values of the finite lot, sums by hand.
import { describe, expect, test } from 'vitest'
import { boundsOf } from '../../../app/lots/rules/bounds.ts'
import { consequencesOf } from '../../../app/lots/rules/consequences.ts'

const costs = { costTestCents: 130, costEscapeCents: 8500, costReturnCents: 20_000 }

describe('the costs still to come', () => {
  // 27 of the 432 untested cords: the published bound of the issue's own example (480, 48, 0, 95 %), checked by enumeration in test/statistics.
  test('a clean tenth: nothing expected to escape, up to 27 cords at the bound, 432 tests to know', () => {
    const proof = boundsOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 })
    expect(consequencesOf(proof, costs)).toEqual({
      accept: { expected: 0, least: 0, most: 27 * 8500 },
      screen: { expected: undefined, least: 432 * 130, most: 432 * 130 + 20_000 },
      return: { expected: 20_000, least: 20_000, most: 20_000 },
    })
  })

  test('cords found carry over to the untested in proportion and are not themselves an escape', () => {
    const proof = boundsOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 2 })
    const { accept, screen } = consequencesOf(proof, costs)
    expect(accept.expected).toBeCloseTo((2 / 48) * 432 * 8500, 6) // by hand: 18 cords
    expect(accept.least).toBe((proof.lowerInLot - 2) * 8500)
    expect(accept.most).toBe((proof.upperInLot - 2) * 8500)
    expect(screen.expected).toBe(432 * 130 + 20_000)
    expect(screen.least).toBe(432 * 130 + 20_000) // two do not conform already
  })

  test('after a stop at the rejection number nothing is expected, only bounded', () => {
    const proof = boundsOf({ lotSize: 480, sampleSize: 48, recorded: 12, found: 1 })
    const { accept } = consequencesOf(proof, costs)
    expect(accept.expected).toBeUndefined()
    expect(accept.least).toBeLessThan(accept.most)
  })

  test('where every cord is tested, accepting what conforms costs nothing more', () => {
    const proof = boundsOf({ lotSize: 60, sampleSize: 60, recorded: 60, found: 3 })
    expect(consequencesOf(proof, costs).accept).toEqual({ expected: 0, least: 0, most: 0 })
  })
})
