// What a rule makes of a count, against chances multiplied out.
import { describe, expect, test } from 'vitest'
import { differsTooMuch, planOfRule } from '../../../app/lots/rules/plan-rule.ts'

const none = { kind: 'zero-acceptance' } as const

/** Chance that a sample of n from a lot of N with D nonconforming holds none, multiplied out. */
function noneFound(n: number, lotSize: number, nonconforming: number): number {
  let chance = 1
  for (let i = 0; i < n; i++) chance *= Math.max(0, lotSize - nonconforming - i) / (lotSize - i)
  return chance
}
const fewest = (lotSize: number, nonconforming: number, risk: number) =>
  Array.from({ length: lotSize }, (_, i) => i + 1).find((n) => noneFound(n, lotSize, nonconforming) <= risk)

describe('the arithmetic of a rule', () => {
  // 2 % of 480 is 9.6; a share of nothing allows nothing
  test.each([
    [480, 480, '2', false],
    [480, 471, '2', false],
    [480, 470, '2', true],
    [480, 489, '2', false],
    [480, 490, '2', true],
    [50, 49, '2', false],
    [480, 480, '0', false],
    [480, 481, '0', true],
    [1, 2, '100', false],
  ])('announced %d, counted %d, %s %% allowed: waits %s', (announced, counted, percent, waits) => {
    expect(differsTooMuch(announced, counted, percent)).toBe(waits)
  })

  test.each([
    [480, 5, '95'],
    [360, 6, '90'],
    [60, 1, '99'],
    [10, 10, '95'],
  ])(
    'none allowed of %d with %d too many, %s of 100: the fewest that catch so many',
    (lotSize, tooMany, catchOf100) => {
      const sampleSize = fewest(lotSize, tooMany, Number((1 - Number(catchOf100) / 100).toPrecision(12)))
      expect(planOfRule(none, { lotSize, tooMany, catchOf100 })).toEqual({ ...none, sampleSize, acceptanceNumber: 0 })
    },
  )
})
