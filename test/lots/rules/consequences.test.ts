// What the four choices are expected to cost: bounds from the golden values of the finite lot, sums by hand.
import { describe, expect, test } from 'vitest'
import { boundsOf } from '../../../app/lots/rules/bounds.ts'
import { consequencesOf } from '../../../app/lots/rules/consequences.ts'

const costs = { costTestCents: 130, costEscapeCents: 8500, costReturnCents: 20_000 }

describe('the costs still to come', () => {
  // 27 of the 432 untested cords: the published bound of the issue's own example (480, 48, 0, 95 %), checked by enumeration in test/statistics.
  test('a clean tenth: nothing expected to escape, up to 27 cords at the bound, 432 tests to know', () => {
    const proof = boundsOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 })
    const { leastCostly, ...found } = consequencesOf(proof, costs)
    expect(found).toEqual({
      expectedUntested: { cords: 0, by: { kind: 'sample' } },
      accept: { expected: 0, least: 0, most: 27 * 8500 },
      screen: { expected: undefined, least: 432 * 130, most: 432 * 130 + 20_000 },
      return: { expected: 20_000, least: 20_000, most: 20_000 },
    })
    // none found proves nothing: accepting may cost 2,295.00, so it is not said to cost least
    expect(leastCostly).toBeUndefined()
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

  // By hand: 45 of 162 at 42.00 are 1,890.00; 162 tests at 1.40 and 260.00 are 486.80; returning costs 260.00.
  test.each([
    {
      what: 'returning',
      costs: { costTestCents: 140, costEscapeCents: 4200, costReturnCents: 26_000 },
      least: 'return',
    },
    { what: 'accepting', costs: { costTestCents: 140, costEscapeCents: 10, costReturnCents: 26_000 }, least: 'accept' },
  ])('names $what as the least costly only where it is less than every other', ({ costs: priced, least }) => {
    const proof = boundsOf({ lotSize: 216, sampleSize: 54, recorded: 54, found: 15 })
    expect(consequencesOf(proof, priced).leastCostly).toBe(least)
    expect(consequencesOf(proof, priced).accept.expected).toBeCloseTo(45 * priced.costEscapeCents, 6)
  })

  test('names none while a drawn cord is undecided, as the lot may then only be returned', () => {
    const proof = boundsOf({ lotSize: 216, sampleSize: 54, recorded: 54, found: 15 })
    expect(consequencesOf(proof, costs, undefined, 0).leastCostly).toBeDefined()
    expect(consequencesOf(proof, costs, undefined, 1).leastCostly).toBeUndefined()
  })

  test('takes the supplier’s finished lots where they say what to expect', () => {
    const proof = boundsOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 })
    const known = { cords: 0.5, by: { kind: 'finished-lots', lots: 6 } } as const
    const { accept, leastCostly } = consequencesOf(proof, costs, known)
    expect(accept.expected).toBe(4250)
    expect(leastCostly).toBe('accept')
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
