// Which lots are finished, by what rule they were tested, and from which number of them on something is believed of the next.
import { describe, expect, test } from 'vitest'
import type { CountedLot } from '../../app/history/counted-lots.ts'
import { finishedLots } from '../../app/history/finished.ts'
import { priorOfFinished } from '../../app/history/series-prior.ts'
import { lotOf } from '../support/counted-lot.ts'

const single = (sampleSize: number, acceptanceNumber: number) => [
  { sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 },
]
const twoSamples = [
  { sampleSize: 50, acceptanceNumber: 0, rejectionNumber: 3 },
  { sampleSize: 100, acceptanceNumber: 3, rejectionNumber: 4 },
]
const lot = (
  stages: CountedLot['stages'],
  [found, recorded]: [number, number],
  planKind: CountedLot['planKind'] = 'single',
) => lotOf(1, 480, 0, { stages, planKind, sample: { recorded, found }, decided: undefined })

describe('a lot is finished where its counts end its plan', () => {
  test.each([
    { name: 'complete and accepted', of: lot(single(50, 1), [1, 50]), ends: { sampleSize: 50, rejectionNumber: 2 } },
    {
      name: 'rejected and gone on to the end of the sample: no rule',
      of: lot(single(50, 1), [2, 50]),
      ends: { sampleSize: 50, rejectionNumber: undefined },
    },
    {
      name: 'stopped at the rejection number',
      of: lot(single(50, 1), [2, 9]),
      ends: { sampleSize: 50, rejectionNumber: 2 },
    },
    { name: 'still under test', of: lot(single(50, 1), [1, 49]), ends: undefined },
    {
      name: 'gone on beyond the rejection number: no rule',
      of: lot(single(50, 1), [3, 50]),
      ends: { sampleSize: 50, rejectionNumber: undefined },
    },
    {
      name: 'every cord: no rule',
      of: lot(single(480, 479), [3, 480], 'every-cord'),
      ends: { sampleSize: 480, rejectionNumber: undefined },
    },
    {
      name: 'two samples, accepted after the first',
      of: lot(twoSamples, [0, 50], 'double'),
      ends: { sampleSize: 50, rejectionNumber: undefined, staged: true },
    },
    { name: 'two samples, undecided after the first', of: lot(twoSamples, [1, 50], 'double'), ends: undefined },
    {
      name: 'two samples, stopped in the second',
      of: lot(twoSamples, [4, 63], 'double'),
      ends: { sampleSize: 100, rejectionNumber: undefined, staged: true },
    },
    {
      name: 'resubmitted: what a sorting left of a lot that counts already',
      of: { ...lot(single(50, 1), [1, 50]), resubmitted: true },
      ends: undefined,
    },
  ])('$name', ({ of, ends }) => {
    const finished = finishedLots([of])
    if (!ends) return expect(finished).toEqual([])
    expect(finished).toMatchObject([{ ...ends, tested: of.sample.recorded, found: of.sample.found }])
  })
})

test('from the fifth finished lot on something is believed of the next', () => {
  const lots = [0, 2, 6, 15, 3].map((found, at) => lotOf(at + 1, 240, found))
  expect(priorOfFinished(finishedLots(lots.slice(0, 4)))).toEqual({ kind: 'too-few', lots: 4 })
  const prior = priorOfFinished(finishedLots(lots))
  if (prior.kind !== 'fitted') throw new Error('five lots are enough')
  expect(prior.lots).toBe(5)
  // 26 of 1,200; lots of one size keep the mean of all cords nearly (the likelihood's own mean is that of the lots)
  expect(prior.a / (prior.a + prior.b)).toBeCloseTo(26 / 1200, 2)
  expect(prior.a + prior.b).toBeLessThan(240)
})
