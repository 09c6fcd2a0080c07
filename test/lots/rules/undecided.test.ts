// Undecided cords: what is proven for both of their answers, and that they stop nothing.
import { expect, test } from 'vitest'
import { recountRange } from '../../../app/lots/rules/recount.ts'
import { bothAnswers, testingOf } from '../../../app/lots/rules/undecided.ts'

const one = (sampleSize: number, acceptanceNumber = 0) => [
  { sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 },
]

// Recomputed apart from the project with whole numbers (hypergeometric, one-sided 95 %).
test.each([
  [480, 216, 4, 8],
  [216, 54, 10, 16],
  [594, 233, 5, 9],
])(
  'of %i cords %i drawn, none found, one undecided: %i or %i',
  (lotSize, sampleSize, ifConforming, ifNonconforming) => {
    const sample = { counts: [{ recorded: sampleSize - 1, found: 0 }], undecided: [1], replaced: [] }
    const answers = bothAnswers({ lotSize, stages: one(sampleSize) }, sample)
    expect(answers).toMatchObject({ undecided: 1, ifConforming, ifNonconforming })
    expect(testingOf(one(sampleSize), sample)).toEqual({ stage: 1, toDo: 0 })
    // a reserve in its place leaves both
    const replaced = { counts: [{ recorded: sampleSize, found: 0 }], undecided: [], replaced: [1] }
    expect(bothAnswers({ lotSize, stages: one(sampleSize) }, replaced)).toMatchObject({ ifConforming, ifNonconforming })
  },
)

test('a cord that does not exist is in neither the lot nor the sample: 593 cords, 233 drawn, none found, 5', () => {
  const sample = { counts: [{ recorded: 233, found: 0 }], undecided: [], replaced: [] }
  expect(bothAnswers({ lotSize: 593, stages: one(233) }, sample)).toBeUndefined()
})

test('nothing is proven while cords are left, and the bench goes on though one that failed would reject', () => {
  const sample = { counts: [{ recorded: 100, found: 0 }], undecided: [2], replaced: [] }
  expect(bothAnswers({ lotSize: 480, stages: one(216) }, sample)).toMatchObject({ ifConforming: undefined })
  expect(testingOf(one(216), sample)).toEqual({ stage: 1, toDo: 114 })
})

test('after a rejection by found ones the cords left count in both bounds', () => {
  const sample = { counts: [{ recorded: 100, found: 1 }], undecided: [1], replaced: [] }
  expect(testingOf(one(216), sample)).toEqual({ stage: 1, toDo: 115 })
  // 116 of the 216 are not recorded, so that 116 or 117 of the 216 are taken as found: at most 480 − 100 + 1 in the lot
  const answers = bothAnswers({ lotSize: 480, stages: one(216) }, sample)
  expect(answers?.ifConforming).toBeLessThanOrEqual(answers?.ifNonconforming ?? 0)
  expect(answers?.ifNonconforming).toBeLessThanOrEqual(381)
})

test('a second sample is begun where one of the answers leads to it', () => {
  const stages = [
    { sampleSize: 3, acceptanceNumber: 0, rejectionNumber: 2 },
    { sampleSize: 6, acceptanceNumber: 1, rejectionNumber: 2 },
  ]
  const sample = { counts: [{ recorded: 2, found: 0 }], undecided: [1], replaced: [] }
  expect(testingOf(stages, sample)).toEqual({ stage: 2, toDo: 3 })
  expect(bothAnswers({ lotSize: 24, stages }, { ...sample, undecided: [0] })).toBeUndefined()
})

test('a recount finds no more than the places that are left, and no fewer cords than were seen', () => {
  expect(recountRange(480, { entries: 0, noCord: 0, recountedSize: undefined })).toEqual({ least: 1, most: 479 })
  expect(recountRange(480, { entries: 12, noCord: 1, recountedSize: 479 })).toEqual({ least: 11, most: 478 })
  expect(recountRange(480, { entries: 12, noCord: 1, recountedSize: 470 })).toEqual({ least: 11, most: 470 })
})
