// Which states a lot's table leads to, and small readings of what a page hands on.
import { describe, expect, test } from 'vitest'
import { decidedStates, statesFor } from '../../../app/lots/rules/lifecycle.ts'
import { positionFrom } from '../../../app/lots/rules/position.ts'
import { checkedStages } from '../../../app/lots/rules/stages.ts'

// House rule: a lot is decided from the decision on its sample on; one that is withdrawn never is.
test('the states after the decision on the sample', () => {
  expect([...decidedStates].sort()).toEqual(['accepted', 'conceded', 'returned', 'screened', 'screening', 'sorted'])
})

// House rule: a count may be put right until the plan is frozen upon it.
test('the states in which a lot may be received', () => {
  expect(statesFor('receive').sort()).toEqual(['announced', 'received'])
})

describe('a position that a page hands on', () => {
  test.each([
    { sent: undefined, read: 0 },
    { sent: '', read: 0 },
    { sent: 'x', read: 0 },
    { sent: '-1', read: 0 },
    { sent: '12345678', read: 0 },
    { sent: '7', read: 7 },
    { sent: '1000000', read: 1_000_000 },
  ])('$sent is $read', ({ sent, read }) => {
    expect(positionFrom(sent)).toBe(read)
  })
})

// House rule: a first sample may be unable to accept (−1) and still be a plan.
test('two samples of which the first cannot accept are a plan', () => {
  const stages = [
    { sampleSize: 3, acceptanceNumber: -1, rejectionNumber: 1 },
    { sampleSize: 6, acceptanceNumber: 0, rejectionNumber: 1 },
  ]
  expect(checkedStages({ kind: 'double', stages }, { lotSize: 24, groupSize: 30 })).toEqual({
    kind: 'double',
    sampleSize: 6,
    acceptanceNumber: 0,
    stages,
    groupSize: null,
  })
})
