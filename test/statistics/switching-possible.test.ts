// States of a series that may all be true: which differ, which agree, which is the strictest. By hand from MIL-STD-105E (1989), 4.7 and 4.8, read.
import { describe, expect, test } from 'vitest'
import { afterLot, type SwitchingState, startOfSeries } from '../../app/statistics/switching.ts'
import { differingStates, inspectionIsKnown, strictestState } from '../../app/statistics/switching-possible.ts'

/** `a` accepted, `r` not accepted, each accepted one adding 2 to the score. */
const stateAfter = (lots: string) =>
  [...lots].reduce<SwitchingState>((state, lot) => {
    const accepted = lot === 'a'
    const still = { original: true, inGap: false, steady: false, reducedWanted: false, withinLimitNumber: false }
    return afterLot(state, { ...still, accepted, score: accepted ? 2 : 0 }, '1999')
  }, startOfSeries)

describe('two states', () => {
  test.each([
    {
      one: 'ra',
      other: 'ar',
      known: false,
      differ: true,
      why: 'a lot not accepted leaves the window of five a lot earlier',
    },
    { one: 'raaa', other: 'aaaa', known: false, differ: true, why: 'it stands in the window still' },
    { one: 'raaaa', other: 'aaaaa', known: true, differ: true, why: 'only the scores differ' },
    { one: 'raa', other: 'araa', known: true, differ: false, why: 'what came before it matters no more' },
    { one: 'rr', other: 'rrr', known: false, differ: true, why: 'one of five not accepted is counted' },
    { one: 'rra', other: 'rraa', known: false, differ: true, why: 'two of five in a row' },
    { one: 'rrraa', other: 'rrraraa', known: false, differ: true, why: 'one against two not accepted' },
    { one: 'rraaaaa', other: '', known: true, differ: false, why: 'a spell of normal inspection begins anew' },
  ])('after “$one” and “$other”: $why', ({ one, other, known, differ }) => {
    const states = [stateAfter(one), stateAfter(other)]
    expect(inspectionIsKnown(states)).toBe(known)
    expect(differingStates(states)).toHaveLength(differ ? 2 : 1)
  })
})

test('of several states the strictest is named, whatever their order', () => {
  const states = [stateAfter(''), stateAfter('rr'), stateAfter('rrrrrrr')]
  expect(strictestState(states).inspection).toBe('discontinued')
  expect(strictestState(states.slice(0, 2)).inspection).toBe('tightened')
  expect(
    strictestState([stateAfter(''), { inspection: 'reduced', reason: 'switching score of thirty' }]).inspection,
  ).toBe('normal')
})

test('states that do not differ keep the first of them', () => {
  const [kept] = differingStates([stateAfter('rraaaaa'), stateAfter('')])
  expect(kept?.reason).toBe('five in a row accepted')
})

test('no state at all is refused', () => {
  expect(() => differingStates([])).toThrow(RangeError)
  expect(() => strictestState([])).toThrow(RangeError)
})
