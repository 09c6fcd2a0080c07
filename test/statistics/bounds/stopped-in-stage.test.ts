// The bound after a stop inside a later stage, against sums over binomial coefficients, and what it refuses.
import { describe, expect, test } from 'vitest'
import { upperBoundAfterStopInStage } from '../../../app/statistics/bounds/stopped-in-stage.ts'
import { boundsWithUndecided } from '../../../app/statistics/bounds/undecided.ts'
import { curtailedUnderPrior } from '../../../app/statistics/economics/curtailed-cost.ts'

const plan = {
  stages: [
    { sampleSize: 8, acceptanceNumber: 0, rejectionNumber: 2 },
    { sampleSize: 14, acceptanceNumber: 1, rejectionNumber: 2 },
  ],
}
const stop = { plan, stage: 2, lotSize: 30, tested: 9, found: 2, confidence: 0.95 }

function choose(n: number, k: number): number {
  let ways = 1
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i
  return k < 0 || k > n ? 0 : ways
}

describe('the bound after a stop in the second of two stages', () => {
  // With D of 30, the first eight reject with two or more: at most one of eight is accepted, or comes to the second stage.
  test('is the largest number with which the first sample shows at most one with more than 5 in 100', () => {
    const comes = (nonconforming: number) =>
      (choose(30 - nonconforming, 8) + nonconforming * choose(30 - nonconforming, 7)) / choose(30, 8)
    const bound = upperBoundAfterStopInStage(stop)
    expect(comes(bound)).toBeGreaterThan(0.05)
    expect(comes(bound + 1)).toBeLessThanOrEqual(0.05)
  })

  test('does not depend on how far the stage was tested, but for what is known to conform', () => {
    const bound = upperBoundAfterStopInStage(stop)
    for (let tested = 9; tested <= 14; tested++)
      expect(upperBoundAfterStopInStage({ ...stop, tested })).toBe(Math.min(bound, 30 - tested + 2))
  })

  test.each([
    ['stage', { stage: 0 }],
    ['stage', { stage: 3 }],
    ['tested', { tested: 8 }],
    ['tested', { tested: 15 }],
    ['found', { found: 1 }],
    ['found', { found: 10 }],
    ['confidence', { confidence: 1 }],
    ['lotSize', { lotSize: 0 }],
  ])('refuses a wrong %s: %o', (name, wrong) => {
    expect(() => upperBoundAfterStopInStage({ ...stop, ...wrong })).toThrow(RangeError)
    expect(() => upperBoundAfterStopInStage({ ...stop, ...wrong })).toThrow(name)
  })
})

describe('bounds with units undecided', () => {
  test.each([
    ['sampleSize', { sampleSize: 0 }],
    ['sampleSize', { sampleSize: 481 }],
    ['undecided', { found: 3, undecided: 214 }],
    ['undecided', { undecided: -1 }],
  ])('refuse a wrong %s: %o', (name, wrong) => {
    const drawn = { lotSize: 480, sampleSize: 216, found: 0, undecided: 1, confidence: 0.95 }
    expect(() => boundsWithUndecided({ ...drawn, ...wrong })).toThrow(name)
  })
})

describe('averages of curtailed testing', () => {
  const costs = { test: 2, escape: 150, rejection: 900 }
  test.each([
    ['sampleSize', { lotSize: 10 }],
    ['prior.a', { prior: { a: 0, b: 9 } }],
    ['costs.escape', { costs: { ...costs, escape: -1 } }],
  ])('refuse a wrong %s: %o', (name, wrong) => {
    expect(() => curtailedUnderPrior(plan, { lotSize: 480, prior: { a: 1, b: 9 }, costs, ...wrong })).toThrow(name)
  })
})
