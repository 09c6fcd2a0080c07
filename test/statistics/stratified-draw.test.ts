// The draw across cartons: proportional, equally likely units, extended by a larger sample.
import { describe, expect, test } from 'vitest'
import { drawAcrossCartons } from '../../app/statistics/stratified-draw.ts'

/** How many of these units lie in each carton, counted by laying all the cords out in a row. */
const perCarton = (cartons: readonly number[], units: readonly number[]) => {
  const row = cartons.flatMap((cords, carton) => new Array<number>(cords).fill(carton))
  return cartons.map((_, carton) => units.filter((unit) => row[unit - 1] === carton).length)
}

describe('the draw across cartons', () => {
  // Source: the Python of docs/draw.md, run in Python 3.11.
  test('gives what its description gives by hand', () => {
    expect(drawAcrossCartons({ cartons: [10, 24, 24, 3, 50], sampleSize: 60, seed: 'audit 7' })).toEqual([
      109, 4, 86, 21, 55, 84, 60, 104, 14, 50, 110, 98, 8, 26, 43, 72, 85, 22, 38, 65, 99, 23, 39, 88, 6, 106, 30, 46,
      70, 91, 25, 35, 93, 111, 2, 63, 24, 47, 78, 68, 20, 56, 62, 59, 75, 10, 11, 53, 82, 81, 16, 54, 105, 102, 27, 51,
      67, 9, 66, 15,
    ])
  })

  test('takes the same number from equal cartons', () => {
    const cartons = new Array(20).fill(50)
    for (const seed of ['a', 'b', 'c'])
      expect(perCarton(cartons, drawAcrossCartons({ cartons, sampleSize: 80, seed }))).toEqual(new Array(20).fill(4))
  })

  test('with fewer units than cartons no carton gives two', () => {
    const cartons = new Array(48).fill(10)
    for (let seed = 0; seed < 20; seed++) {
      const counts = perCarton(cartons, drawAcrossCartons({ cartons, sampleSize: 20, seed: `few ${seed}` }))
      expect(Math.max(...counts)).toBe(1)
    }
  })

  test('is close to proportional for cartons that differ, and takes all of them at n = N', () => {
    const cartons = [100, 40, 7, 1, 250, 12]
    for (let seed = 0; seed < 20; seed++)
      for (const sampleSize of [1, 41, 205, 400]) {
        const units = drawAcrossCartons({ cartons, sampleSize, seed: `mixed ${seed}` })
        expect(new Set(units).size).toBe(sampleSize)
        const drawn = perCarton(cartons, units)
        for (const [carton, cords] of cartons.entries())
          expect(Math.abs((drawn[carton] ?? 0) - (sampleSize * cords) / 410)).toBeLessThan(2)
      }
    const all = drawAcrossCartons({ cartons, sampleSize: 410, seed: 'all' })
    expect(all.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 410 }, (_, index) => index + 1))
  })

  test('a larger sample extends a smaller one', () => {
    const cartons = [24, 24, 24, 10]
    const long = drawAcrossCartons({ cartons, sampleSize: 60, seed: 'two stages' })
    for (const sampleSize of [0, 1, 13, 30])
      expect(drawAcrossCartons({ cartons, sampleSize, seed: 'two stages' })).toEqual(long.slice(0, sampleSize))
  })

  test('every unit is equally likely, also in a small last carton', () => {
    const cartons = [10, 10, 10, 3]
    const seen = new Array(33).fill(0)
    const draws = 6000
    for (let seed = 0; seed < draws; seed++)
      for (const unit of drawAcrossCartons({ cartons, sampleSize: 6, seed: `even ${seed}` })) seen[unit - 1]++
    const chance = 6 / 33
    const spread = Math.sqrt(draws * chance * (1 - chance))
    // Bonferroni over 33 units at 4.5 standard deviations: a fair draw fails once in about 4,000 such tests.
    for (const times of seen) expect(Math.abs(times - draws * chance)).toBeLessThan(4.5 * spread)
  })

  test.each([
    [{ cartons: [], sampleSize: 0, seed: '1' }, 'cartons.length must be a whole number from 1'],
    [{ cartons: [10, 0], sampleSize: 1, seed: '1' }, 'cartons[1] must be a whole number from 1'],
    [{ cartons: [10, 2.5], sampleSize: 1, seed: '1' }, 'cartons[1] must be a whole number from 1 to 1000000, not 2.5'],
    [{ cartons: [900_000, 900_000], sampleSize: 1, seed: '1' }, 'lotSize must be'],
    [{ cartons: [10, 10], sampleSize: 21, seed: '1' }, 'sampleSize must be a whole number from 0 to 20, not 21'],
    [{ cartons: [10], sampleSize: 1, seed: '' }, 'seed must be'],
  ])('refuses %o', (draw, message) => {
    expect(() => drawAcrossCartons(draw)).toThrow(message)
  })
})
