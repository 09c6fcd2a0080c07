// The replay against every draw of small lots, counted one by one, and the trade's scenarios.
import { describe, expect, test } from 'vitest'
import type { Stages } from '../../app/statistics/plans/plan.ts'
import { replayOnLot } from '../../app/statistics/replay.ts'

const plan = (...stages: [number, number, number][]): Stages => ({
  stages: stages.map(([sampleSize, acceptanceNumber, rejectionNumber]) => ({
    sampleSize,
    acceptanceNumber,
    rejectionNumber,
  })),
})

/** Each order of a small lot once, as a pattern of bits: accepted share, and nonconforming units shipped. */
function byCounting({ stages }: Stages, lotSize: number, nonconforming: number) {
  let orders = 0
  let accepted = 0
  let shipped = 0
  for (let pattern = 0; pattern < 2 ** lotSize; pattern++) {
    const bits = Array.from({ length: lotSize }, (_, place) => (pattern >> place) & 1)
    const foundIn = (units: number) => bits.slice(0, units).reduce((sum, bit) => sum + bit, 0)
    if (foundIn(lotSize) !== nonconforming) continue
    orders++
    const end = stages.find(({ sampleSize, acceptanceNumber, rejectionNumber }) => {
      const found = foundIn(sampleSize)
      return found <= acceptanceNumber || found >= rejectionNumber
    })
    if (!end || foundIn(end.sampleSize) > end.acceptanceNumber) continue
    accepted++
    shipped += nonconforming - foundIn(end.sampleSize)
  }
  return { acceptance: accepted / orders, shipped: shipped / orders }
}

describe('the replay of a plan on a known lot', () => {
  test.each([
    ['single', plan([4, 1, 2])],
    ['zero acceptance', plan([5, 0, 1])],
    ['double', plan([3, 0, 2], [7, 2, 3])],
    ['three stages', plan([2, -1, 2], [5, 1, 3], [9, 2, 3])],
    ['every unit', plan([11, 0, 1])],
    ['every unit, two allowed', plan([11, 2, 3])],
  ])('agrees with counting all orders: %s', (_, stages) => {
    for (let nonconforming = 0; nonconforming <= 11; nonconforming++) {
      const counted = byCounting(stages, 11, nonconforming)
      const replayed = replayOnLot({ plan: stages, lotSize: 11, nonconforming })
      expect(replayed.acceptance).toBeCloseTo(counted.acceptance, 13)
      expect(replayed.shipped).toBeCloseTo(counted.shipped, 12)
      const ifAccepted = counted.acceptance > 0 ? counted.shipped / counted.acceptance : 0
      expect(replayed.shippedIfAccepted).toBeCloseTo(ifAccepted, 11)
    }
  })

  // Common practice, no source: a lot of 500 with 2 % nonconforming passes a tenth with none allowed by pure chance.
  test('a tenth of 500 with 10 nonconforming', () => {
    const { acceptance, shipped, shippedIfAccepted } = replayOnLot({
      plan: plan([50, 0, 1]),
      lotSize: 500,
      nonconforming: 10,
    })
    let chance = 1
    for (let i = 0; i < 10; i++) chance *= (450 - i) / (500 - i) // none of the ten is among the 50 drawn
    expect(acceptance).toBeCloseTo(chance, 14)
    expect(shipped).toBeCloseTo(10 * chance, 12)
    expect(shippedIfAccepted).toBeCloseTo(10, 12)
  })

  // The trade's scenarios, invented suppliers; base R 4.2, phyper.
  test.each([
    [{ lotSize: 1000, nonconforming: 40, n: 100, c: 0 }, 0.0135],
    [{ lotSize: 120, nonconforming: 5, n: 12, c: 0 }, 0.585],
    [{ lotSize: 5000, nonconforming: 25, n: 500, c: 0 }, 0.0713],
    [{ lotSize: 480, nonconforming: 19, n: 50, c: 1 }, 0.392],
    [{ lotSize: 800, nonconforming: 40, n: 80, c: 1 }, 0.0753],
    [{ lotSize: 480, nonconforming: 24, n: 50, c: 1 }, 0.263],
  ])('%o is accepted in a share of %d', ({ lotSize, nonconforming, n, c }, expected) => {
    const { acceptance } = replayOnLot({ plan: plan([n, c, c + 1]), lotSize, nonconforming })
    expect(Math.abs(acceptance / expected - 1)).toBeLessThan(0.01)
  })

  test('an acceptance too rare for a number still has what it would ship', () => {
    const replayed = replayOnLot({ plan: plan([4000, 2, 3]), lotSize: 100_000, nonconforming: 75_000 })
    expect(replayed.acceptance).toBe(0)
    expect(replayed.shipped).toBe(0)
    // Source: C(4000, d) C(96000, 75000 − d) for d = 0, 1, 2 as exact fractions in Python.
    expect(replayed.shippedIfAccepted).toBeCloseTo(74_998.00014005021, 7)
  })

  test('no test ships everything, an empty lot nothing', () => {
    expect(replayOnLot({ plan: plan(), lotSize: 30, nonconforming: 4 })).toEqual({
      acceptance: 1,
      shipped: 4,
      shippedIfAccepted: 4,
    })
    expect(replayOnLot({ plan: plan(), lotSize: 0, nonconforming: 0 })).toEqual({
      acceptance: 1,
      shipped: 0,
      shippedIfAccepted: 0,
    })
  })

  test('a plan above the lot and more nonconforming units than units are refused', () => {
    expect(() => replayOnLot({ plan: plan([50, 0, 1]), lotSize: 49, nonconforming: 1 })).toThrow(
      'sampleSize of stage 1',
    )
    expect(() => replayOnLot({ plan: plan([5, 0, 1]), lotSize: 49, nonconforming: 50 })).toThrow(
      'nonconforming must be',
    )
  })
})
