// One process or not: against a count of every outcome in whole numbers, and what the test cannot see.
import { describe, expect, test } from 'vitest'
import type { LotUnderRule } from '../../../app/statistics/history/endings.ts'
import { homogeneityOfLots } from '../../../app/statistics/history/homogeneity.ts'
import { TooManySteps } from '../../../app/statistics/steps.ts'
import { uniformNumbers } from '../../../app/statistics/uniform.ts'

type Ending = { tested: number; found: number; orders: bigint }

/** Every order in which the units of a lot can turn out, one by one, gathered by how the lot ends: shares nothing with the engine. */
function endings({ sampleSize, rejectionNumber }: LotUnderRule): Ending[] {
  const ended: Ending[] = []
  let open: Ending[] = [{ tested: 0, found: 0, orders: 1n }]
  while (open.length > 0) {
    const next = new Map<number, Ending>()
    for (const one of open)
      for (const failed of [0, 1]) {
        const after = { tested: one.tested + 1, found: one.found + failed, orders: one.orders }
        if (after.tested === sampleSize || after.found === rejectionNumber) {
          const known = ended.find(({ tested, found }) => tested === after.tested && found === after.found)
          if (known) known.orders += after.orders
          else ended.push(after)
        } else {
          const known = next.get(after.found)
          if (known) known.orders += after.orders
          else next.set(after.found, after)
        }
      }
    open = [...next.values()]
  }
  return ended
}

function counted(lots: readonly LotUnderRule[]): number {
  const wanted = {
    tested: lots.reduce((sum, lot) => sum + lot.tested, 0),
    found: lots.reduce((sum, lot) => sum + lot.found, 0),
  }
  const own = lots.map(
    (lot) => endings(lot).find((one) => one.tested === lot.tested && one.found === lot.found)?.orders ?? 0n,
  )
  const observed = own.reduce((product, orders) => product * orders, 1n)
  let [all, unlikely] = [0n, 0n]
  const go = (index: number, tested: number, found: number, product: bigint): void => {
    const lot = lots[index]
    if (!lot) {
      if (tested !== wanted.tested || found !== wanted.found) return
      all += product
      if (product <= observed) unlikely += product
      return
    }
    for (const one of endings(lot)) go(index + 1, tested + one.tested, found + one.found, product * one.orders)
  }
  go(0, 0, 0, 1n)
  return Number((unlikely * 10n ** 18n) / all) / 1e18
}

/** Lots of two to four, some under a rule, ended as a process with one in six would end them; the same each time. */
function drawnLots(seed: number): LotUnderRule[] {
  const next = uniformNumbers(seed)
  return Array.from({ length: 2 + Math.floor(next() * 3) }, () => {
    const sampleSize = 1 + Math.floor(next() * 9)
    const rule = Math.floor(next() * 4)
    const rejectionNumber = rule === 0 ? undefined : rule
    let [tested, found] = [0, 0]
    while (tested < sampleSize && found !== rejectionNumber) {
      tested += 1
      if (next() < 1 / 6) found += 1
    }
    return { sampleSize, tested, found, rejectionNumber }
  })
}

describe('is the share of all orders with the same totals that are no more frequent', () => {
  test.each(Array.from({ length: 60 }, (_, at) => at + 1))('lots of draw %i', (seed) => {
    const lots = drawnLots(seed)
    expect(homogeneityOfLots(lots)).toBeCloseTo(counted(lots), 12)
  })
})

test('lots that stop at their first say nothing, however different they are', () => {
  const clean = Array.from({ length: 10 }, () => ({ sampleSize: 216, tested: 216, found: 0, rejectionNumber: 1 }))
  const stopped = Array.from({ length: 10 }, () => ({ sampleSize: 216, tested: 1, found: 1, rejectionNumber: 1 }))
  expect(homogeneityOfLots([...clean, ...stopped])).toBe(1)
})

test('the order of the lots does not count', () => {
  for (const seed of [101, 102, 103]) {
    const lots = drawnLots(seed)
    expect(homogeneityOfLots(lots.toReversed())).toBeCloseTo(homogeneityOfLots(lots), 14)
  }
})

const refused: { what: string; lots: LotUnderRule[]; named: string }[] = [
  { what: 'no lots', lots: [], named: '' },
  { what: 'more found than the sample', lots: [{ sampleSize: 5, tested: 5, found: 6 }], named: 'found' },
  {
    what: 'more found than its rule lets',
    lots: [{ sampleSize: 5, tested: 5, found: 3, rejectionNumber: 2 }],
    named: 'found',
  },
  {
    what: 'stopped before its rule',
    lots: [{ sampleSize: 5, tested: 4, found: 1, rejectionNumber: 2 }],
    named: 'tested',
  },
  { what: 'not finished without a rule', lots: [{ sampleSize: 5, tested: 4, found: 1 }], named: 'tested' },
  {
    what: 'fewer tested than found',
    lots: [{ sampleSize: 5, tested: 1, found: 2, rejectionNumber: 2 }],
    named: 'tested',
  },
  {
    what: 'a rule that stops before the first',
    lots: [{ sampleSize: 5, tested: 5, found: 0, rejectionNumber: 0 }],
    named: 'rejectionNumber',
  },
  { what: 'half a cord', lots: [{ sampleSize: 5, tested: 5, found: 0.5 }], named: 'found' },
]

test.each(refused)('refuses $what by name', ({ lots, named }) => {
  expect(() => homogeneityOfLots(lots)).toThrow(new RegExp(`^lots.*${named}`))
})

test('refuses what would take too many steps, always the same', () => {
  const lots = Array.from({ length: 40 }, (_, at) => ({
    sampleSize: 900 + 7 * at,
    tested: 900 + 7 * at,
    found: 30 + (at % 11),
  }))
  expect(() => homogeneityOfLots(lots)).toThrow(TooManySteps)
})
