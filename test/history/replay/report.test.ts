// The percentage question over lots known cord by cord, against exact whole-number arithmetic.
import { describe, expect, test } from 'vitest'
import { replayOnce } from '../../../app/history/replay/alike.ts'
import { fixedSampleComparison } from '../../../app/history/replay/effort.ts'
import { replayedSampleOf } from '../../../app/history/replay/trial.ts'
import { lotOf } from '../../support/counted-lot.ts'
import { exactAtMost, exactShipped } from '../../support/exact.ts'

const lots = [lotOf(1, 40, 6), lotOf(2, 25, 0), lotOf(3, 90, 12), lotOf(4, 60, 5), lotOf(5, 33, 2), lotOf(6, 40, 6)]

/** The two lots of 40 with 6 found stand together. */
const history = [lots[0], ...lots.slice(1, 5)].flatMap((lot, at) =>
  lot
    ? [
        {
          lots: at === 0 ? 2 : 1,
          size: lot.size,
          found: lot.all.found,
          tooMany: lot.tooMany,
          byPlan: true,
          costTestCents: lot.costTestCents,
          costEscapeCents: lot.costEscapeCents,
          costReturnCents: 32_000,
          catchOf100: '95',
        },
      ]
    : [],
)

describe('a trial of a history', () => {
  test.each([
    { allowed: 0, percent: 10 },
    { allowed: 1, percent: 10 },
    { allowed: 0, percent: 25 },
    { allowed: 2, percent: 60 },
    { allowed: 0, percent: 100 },
  ])('of $percent %, $allowed allowed, adds up the lots one by one', ({ allowed, percent }) => {
    const sampleOf = (size: number) => Math.ceil((size * percent) / 100)
    const trial = replayedSampleOf(history, (lot) => sampleOf(lot.size), replayOnce(allowed))
    let accepted = 0
    let shipped = 0
    const sum = { rejected: 0, rejectedGood: 0, screened: 0 }
    for (const { size, all, tooMany } of lots) {
      const lot = { N: size, D: all.found, n: sampleOf(size), c: allowed }
      if (all.found >= tooMany) accepted += exactAtMost(lot)
      shipped += exactShipped(lot)
      const rejection = 1 - exactAtMost(lot)
      sum.rejected += rejection
      if (all.found < tooMany) sum.rejectedGood += rejection
      sum.screened += rejection * (size - lot.n)
    }
    expect(trial.acceptedTooMany).toBeCloseTo(accepted, 12)
    expect(trial.shipped).toBeCloseTo(shipped, 10)
    expect(trial.escapesCents).toBeCloseTo(shipped * 9500, 5)
    expect(trial.rejected).toBeCloseTo(sum.rejected, 10)
    expect(trial.rejectedGood).toBeCloseTo(sum.rejectedGood, 10)
    expect(trial.returnsCents).toBeCloseTo(sum.rejected * 32_000, 5)
    expect(trial.screened).toBeCloseTo(sum.screened, 9)
    expect(trial.screenedCents).toBeCloseTo(sum.screened * 160, 6)
    expect(trial.tests).toBe(lots.reduce((sum, lot) => sum + sampleOf(lot.size), 0))
  })
})

describe('the same effort', () => {
  test('is the largest number that spends no more tests', () => {
    const effort = fixedSampleComparison(history, '10', replayOnce(0))
    if (!effort) throw new Error('there are lots')
    const testsOf = (number: number) => lots.reduce((sum, lot) => sum + Math.min(number, lot.size), 0)
    expect(effort.fixed.tests).toBe(testsOf(effort.number))
    expect(effort.fixed.tests).toBeLessThanOrEqual(effort.share.tests)
    expect(testsOf(effort.number + 1)).toBeGreaterThan(effort.share.tests)
  })

  test('tests a smaller lot whole and shows sizes from the smallest to the largest', () => {
    const effort = fixedSampleComparison(history, '90', replayOnce(0))
    expect(effort?.sizes.map(({ size }) => size)).toEqual([25, 33, 40, 60, 90])
    for (const { size, byNumber, byShare } of effort?.sizes ?? []) {
      expect(byNumber).toBe(Math.min(size, effort?.number ?? 0))
      expect(byShare).toBe(Math.ceil((size * 9) / 10))
    }
  })

  test('beside it stands the sample that keeps each lot’s own risk, the smallest that does', () => {
    const effort = fixedSampleComparison(history, '10', replayOnce(0))
    let [tests, shipped] = [0, 0]
    for (const { size, all, tooMany } of lots) {
      let n = 1
      while (n < size && exactAtMost({ N: size, D: tooMany, n, c: 0 }) > 0.05) n += 1
      tests += n
      shipped += exactShipped({ N: size, D: all.found, n, c: 0 })
    }
    expect(effort?.risk.tests).toBe(tests)
    expect(effort?.risk.shipped).toBeCloseTo(shipped, 10)
  })

  test('of no lots is none', () => {
    expect(fixedSampleComparison([], '10', replayOnce(0))).toBeUndefined()
  })
})
