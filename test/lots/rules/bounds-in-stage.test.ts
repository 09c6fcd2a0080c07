// The bound after a stop inside a later sample: capped by how far the plan came.
import { expect, test } from 'vitest'
import { boundsAfter } from '../../../app/lots/rules/bounds.ts'
import { type PlanProgress, progressOf } from '../../../app/lots/rules/progress.ts'

const stages = [
  { sampleSize: 122, acceptanceNumber: 0, rejectionNumber: 2 },
  { sampleSize: 219, acceptanceNumber: 1, rejectionNumber: 2 },
]

// P(accepted earlier, or came to the second sample | 12) is .04715, worked out by an independent program
test('after a stop inside the second sample says what coming so far excludes, and never less than was found', () => {
  const stopped = progressOf(stages, [
    { recorded: 122, found: 1 },
    { recorded: 50, found: 1 },
  ])
  expect(boundsAfter({ lotSize: 360, stages }, stopped)).toMatchObject({ upperInLot: 11, upperInUntested: 9 })
  const many: PlanProgress = { stage: 2, recorded: 172, found: 20, left: 47, verdict: 'reject' }
  expect(boundsAfter({ lotSize: 360, stages }, many)).toMatchObject({ upperInLot: 20, upperInUntested: 0 })
})
