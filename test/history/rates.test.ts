// Suppliers beside one another: what counts, what is said of the next lot of each, and that testing which stops early spoils no interval.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { compareSuppliers } from '../../app/history/comparison.ts'
import { priorOfSuppliers } from '../../app/history/rates.ts'
import { runHere } from '../../app/kit/task.ts'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import { clopperPearsonInterval } from '../../app/statistics/bounds/fraction.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, recordAll, signature, type Wanted } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)

async function supplierWith(name: string, found: number[], wanted: Wanted = {}): Promise<number> {
  const id = await registerSupplier(db, three.officer, { key: randomUUID(), name })
  for (const each of found) {
    const lotId = await drawnLot(db, three, wanted)
    await recordAll(db, three, lotId, each)
    await owner`update lots set supplier_id = ${id} where id = ${lotId}`
    const choice: DecisionChoice = { outcome: each > 1 ? 'returned' : 'accepted' }
    await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId, 'for the test')), ...choice })
  }
  return id
}

/** The finished lots of a supplier by its name, with what the comparison says of its next. */
const sideBySide = async () => {
  const { suppliers, pairs } = await compareSuppliers(db, runHere)
  return { of: (name: string) => suppliers.find((supplier) => supplier.name === name), suppliers, pairs }
}

/** Lots are made of an item each: these are brought under one. */
const underOneItem = () => owner`update lots set item_id = (select min(item_id) from lots)`

describe('the prior of a trend', () => {
  test('is a stated one worth two cords while the suppliers cannot tell how much they differ', () => {
    expect(priorOfSuppliers([])).toEqual({ a: 1.2, b: 0.8 })
    expect(priorOfSuppliers([sampled('Alder', 6, 0)])).toEqual({ a: 1.2, b: 0.8 })
  })

  test('is the beta-binomial distribution over the suppliers once they can', () => {
    const suppliers = [sampled('Alder', 6, 0), sampled('Birch', 18, 1), sampled('Cedar', 18, 15)]
    expect(priorOfSuppliers(suppliers)).toEqual(
      expect.objectContaining({ a: expect.any(Number), b: expect.any(Number) }),
    )
    const { a, b } = priorOfSuppliers(suppliers)
    // No nearby pair makes these samples likelier: a maximum, by sums of logarithms apart from the engine.
    const likelihood = (x: number, y: number) =>
      suppliers.reduce((sum, { sampleSize, found }) => sum + logUrn(sampleSize, found, x, y), 0)
    for (const [x, y] of [
      [a * 1.01, b],
      [a * 0.99, b],
      [a, b * 1.01],
      [a, b * 0.99],
    ] as const)
      expect(likelihood(x, y)).toBeLessThan(likelihood(a, b))
  })
})

function sampled(name: string, sampleSize: number, found: number) {
  return { id: 1, name, lots: 1, sampleSize, found }
}

/** Logarithm of the chance of one order of draws from Pólya’s urn. */
function logUrn(n: number, d: number, a: number, b: number): number {
  let sum = 0
  for (let i = 0; i < d; i++) sum += Math.log(a + i)
  for (let i = 0; i < n - d; i++) sum += Math.log(b + i)
  for (let i = 0; i < n; i++) sum -= Math.log(a + b + i)
  return sum
}

describe('suppliers side by side', () => {
  test('have nothing to compare before a lot is finished', async () => {
    expect(await compareSuppliers(db, runHere)).toMatchObject({ item: undefined, suppliers: [], pairs: [] })
    await expect(compareSuppliers(db, runHere, 999)).rejects.toMatchObject({ kind: 'missing' })
  })

  test('say nothing of the next lot under five finished ones, and do not put such suppliers in order', async () => {
    await supplierWith('Alder', [0, 0, 0, 0])
    await underOneItem()
    const { of, pairs } = await sideBySide()
    expect(of('Alder')).toMatchObject({ lots: 4, latest: { length: 3 }, next: undefined })
    expect(pairs).toEqual([])
  })

  test('are put in order by their next lots, each from its own finished lots, which may differ', async () => {
    await supplierWith('Birch', [0, 0, 1, 0, 0])
    await supplierWith('Cedar', [5, 4, 6, 0, 5])
    await underOneItem()
    const { of, suppliers, pairs } = await sideBySide()
    const places = suppliers.flatMap(({ next }) => next ?? []).map(({ ranked }) => ranked.chanceBest)
    expect(places).toHaveLength(2)
    expect(places.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9)
    expect(pairs).toMatchObject([{ lower: 'Birch', other: 'Cedar' }])
    expect(suppliers.map(({ name }) => name)).toEqual(['Alder', 'Birch', 'Cedar'])
    // The mean of alike lots by hand: (found + ½) ÷ (tested + 1), Jeffreys' (from memory); lots that differ leave a wide interval,
    // where one steady process of 20 in 30 cords would be known from 47 to 83 % (Clopper and Pearson).
    expect(of('Birch')?.next?.mean).toBeCloseTo(1.5 / 31, 12)
    expect(of('Cedar')?.next?.lower).toBeLessThan(0.1)
  })
})

/**
 * Every way in which the samples of three lots can end, with its chance: 20 cords a lot are to be tested, and testing stops at
 * the first that does not conform.
 */
function endsOf(p: number): { tested: number; found: number; chance: number }[] {
  const lot = Array.from({ length: 20 }, (_, before) => ({
    tested: before + 1,
    found: 1,
    chance: (1 - p) ** before * p,
  }))
  const one = [...lot, { tested: 20, found: 0, chance: (1 - p) ** 20 }]
  const plus = (ends: typeof one) =>
    ends.flatMap((end) =>
      one.map((next) => ({
        tested: end.tested + next.tested,
        found: end.found + next.found,
        chance: end.chance * next.chance,
      })),
    )
  return plus(plus(one))
}

describe('samples that stop at the first nonconforming cord', () => {
  test.each([0.003, 0.02, 0.05, 0.12, 0.3, 0.6])('still give an interval that covers, at a share of %d', (p) => {
    const ends = endsOf(p)
    expect(ends.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12)
    const covered = ends.filter(({ tested, found }) => {
      const { lower, upper } = clopperPearsonInterval({ sampleSize: tested, found, confidence: 0.95 })
      return lower <= p && p <= upper
    })
    expect(covered.reduce((sum, { chance }) => sum + chance, 0)).toBeGreaterThanOrEqual(0.95)
  })

  test('find in the long run what they should: found on average is the share of tested on average', () => {
    for (const p of [0.01, 0.1, 0.5]) {
      const mean = (of: (end: { tested: number; found: number }) => number) =>
        endsOf(p).reduce((sum, end) => sum + end.chance * of(end), 0)
      expect(mean(({ found }) => found) / mean(({ tested }) => tested)).toBeCloseTo(p, 12)
    }
  })
})
