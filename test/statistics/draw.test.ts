// The draw against the published picks of its method, and its promises: distinct, even, and extended by a larger one.
import { hash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { drawUnits } from '../../app/statistics/draw.ts'

// R. L. Rivest, reference procedure for drawing an audit sample, 14 Nov 2011: seed of dice digits, units 1 to 876.
const published = {
  lotSize: 876,
  seed: '3546311556112163624615351222',
  picks: [
    740, 180, 264, 789, 238, 448, 272, 611, 761, 208, 596, 88, 160, 113, 766, 427, 184, 816, 653, 411, 779, 331, 339,
    487, 594, 235, 65, 527, 821, 490, 461, 251, 471, 414, 174, 567, 300, 134, 144, 357, 786, 792, 218, 550, 787, 537,
    197,
  ],
}

describe('the random draw', () => {
  test('gives all 47 published picks in their order', () => {
    const { lotSize, seed, picks } = published
    expect(drawUnits({ lotSize, sampleSize: 47, seed })).toEqual(picks)
  })

  test.each([0, 1, 20, 46])('a sample of %i is the beginning of the larger one', (sampleSize) => {
    const { lotSize, seed, picks } = published
    expect(drawUnits({ lotSize, sampleSize, seed })).toEqual(picks.slice(0, sampleSize))
  })

  test('follows the published method to the last unit of the lot', () => {
    const seed = 'dock 4, 17 March'
    const units: number[] = []
    for (let i = 1; units.length < 480; i++) {
      const unit = Number(BigInt(`0x${hash('sha256', `${seed},${i}`, 'hex')}`) % 480n) + 1
      if (!units.includes(unit)) units.push(unit)
    }
    expect(drawUnits({ lotSize: 480, sampleSize: 480, seed })).toEqual(units)
  })

  test('every unit is equally likely: chi-square over 3,000 seeds lies between its 0.01 and 99.99 % points', () => {
    const seen = new Array(50).fill(0)
    for (let seed = 0; seed < 3000; seed++)
      for (const unit of drawUnits({ lotSize: 50, sampleSize: 10, seed: `even ${seed}` })) seen[unit - 1]++
    const expected = (3000 * 10) / 50
    // Without replacement the counts vary less: the statistic is (1 − n ÷ N) N ÷ (N − 1) times a chi-square of 49.
    const chiSquare = seen.reduce((sum, times) => sum + (times - expected) ** 2 / expected, 0) / (0.8 * (50 / 49))
    expect(chiSquare).toBeLessThan(94.597) // qchisq(0.9999, 49), base R 4.2
    expect(chiSquare).toBeGreaterThan(20.378) // qchisq(0.0001, 49): counts too even would be no draw either
  })

  test('in a huge lot drawn whole, picks past the skipped counters count among the units left, lowest first', () => {
    const lot = { lotSize: 1_050_000, seed: 'a whole ship' }
    const all = drawUnits({ ...lot, sampleSize: lot.lotSize })
    expect(new Set(all).size).toBe(lot.lotSize)
    const number = (i: number) => BigInt(`0x${hash('sha256', `${lot.seed},${i}`, 'hex')}`)
    const limit = 2 * lot.lotSize
    const skipping = new Set<number>()
    for (let i = 1; i <= limit; i++) skipping.add(Number(number(i) % BigInt(lot.lotSize)) + 1)
    expect(all.slice(0, skipping.size)).toEqual([...skipping])
    const left = Array.from({ length: lot.lotSize }, (_, index) => index + 1).filter((unit) => !skipping.has(unit))
    for (let step = 1; step <= 200; step++) {
      const [unit] = left.splice(Number(number(limit + step) % BigInt(left.length)), 1)
      expect(all[skipping.size + step - 1]).toBe(unit)
    }
    const sampleSize = skipping.size + 100
    expect(drawUnits({ ...lot, sampleSize })).toEqual(all.slice(0, sampleSize))
  })

  test.each([
    [{ lotSize: 0, sampleSize: 0, seed: '1' }, 'lotSize must be a whole number from 1 to 10000000, not 0'],
    [{ lotSize: 10_000_001, sampleSize: 1, seed: '1' }, 'lotSize must be a whole number from 1 to 10000000'],
    [{ lotSize: 10, sampleSize: 11, seed: '1' }, 'sampleSize must be a whole number from 0 to 10, not 11'],
    [{ lotSize: 10, sampleSize: Number.NaN, seed: '1' }, 'sampleSize must be a whole number from 0 to 10, not NaN'],
    [{ lotSize: 10, sampleSize: 2, seed: '' }, 'seed must be a text of at least one character'],
  ])('refuses %o', (draw, message) => {
    expect(() => drawUnits(draw)).toThrow(RangeError)
    expect(() => drawUnits(draw)).toThrow(message)
  })
})
