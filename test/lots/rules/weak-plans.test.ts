// Which frozen plans let more slip through than their item wants.
import { expect, test } from 'vitest'
import { weakPlansTask } from '../../../app/lots/rules/weak-plans.ts'

const plan = (sampleSize: number, catchOf100: string) => ({
  lotId: sampleSize,
  supplier: 'Long Loom Works',
  tooMany: 5,
  catchOf100,
  lotSize: 480,
  stages: [{ sampleSize, acceptanceNumber: 0, rejectionNumber: 1 }],
})

// Recomputed in exact fractions: a lot of 480 with 5 nonconforming cords passes 216, none allowed, 4.95 times in 100, and 215 5.04 times.
test.each([
  [216, '95', false],
  [215, '95', true],
  [215, '94', false],
  [216, '95.5', true],
  [480, '99', false],
])('%i of 480, none allowed, where %s of 100 lots with 5 are to be caught: %s', (sampleSize, catchOf100, weak) => {
  const found = weakPlansTask.work([plan(sampleSize, catchOf100)])
  expect(found.map(({ lotId }) => lotId)).toEqual(weak ? [sampleSize] : [])
})
