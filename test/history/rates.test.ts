// Rates of suppliers: what counts, how they are drawn together, and that testing which stops early spoils neither.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { compareSuppliers } from '../../app/history/comparison.ts'
import { ratesOf } from '../../app/history/sampled-cords.ts'
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

describe('the rates of suppliers', () => {
  test('rest on a stated prior worth two cords while the suppliers cannot tell how much they differ', async () => {
    expect(await ratesOf(db)).toMatchObject({ priorFrom: 'stated', suppliers: [] })
    await supplierWith('Alder', [0])
    const { prior, priorFrom, suppliers } = await ratesOf(db)
    expect(priorFrom).toBe('stated')
    expect(prior.a + prior.b).toBeCloseTo(2, 12)
    // Beta(1.2, 0.8 + 6): mean 1.2 ÷ 8, by hand.
    expect(suppliers).toMatchObject([{ name: 'Alder', lots: 1, sampleSize: 6, found: 0, insufficientData: true }])
    expect(suppliers[0]?.rate.mean).toBeCloseTo(1.2 / 8, 12)
    expect(suppliers[0]?.rate.ownShare).toBeCloseTo(6 / 8, 12)
  })

  test('are drawn towards each other once they can, those with fewer cords the more', async () => {
    await supplierWith('Birch', [0, 0, 1])
    await supplierWith('Cedar', [5, 4, 6])
    const { prior, priorFrom, suppliers } = await ratesOf(db)
    expect(priorFrom).toBe('suppliers')
    expect(suppliers.map(({ name, sampleSize, found }) => [name, sampleSize, found])).toEqual([
      ['Alder', 6, 0],
      ['Birch', 18, 1],
      ['Cedar', 18, 15],
    ])
    for (const { rate, sampleSize, found } of suppliers) {
      // The posterior mean of a beta prior and a binomial sample, and that it lies between prior and own (Efron and Morris 1977).
      expect(rate.mean).toBeCloseTo((prior.a + found) / (prior.a + prior.b + sampleSize), 12)
      const middle = prior.a / (prior.a + prior.b)
      expect((rate.mean - middle) * (rate.mean - found / sampleSize)).toBeLessThan(0)
      expect(rate.lower).toBeLessThan(rate.mean)
      expect(rate.upper).toBeGreaterThan(rate.mean)
    }
  })

  test('can be asked of one item alone', async () => {
    await supplierWith('Alone', [0])
    const [lot] = await owner<[{ item: number }]>`select item_id as item from lots order by id desc limit 1`
    const { suppliers } = await ratesOf(db, lot.item)
    expect(suppliers.map(({ name }) => name)).toEqual(['Alone'])
  })

  // 59 clean cords are the fewest that leave less than 5 % at 95 %: ln 0.05 ÷ ln 0.95 = 58.4.
  test.each([
    [58, true],
    [59, false],
  ])('of %i cords are too little to say much: %s', async (sampleSize, insufficientData) => {
    const plan = { kind: 'single', sampleSize, acceptanceNumber: 1 } as const
    await supplierWith(`Clean ${sampleSize}`, [0], { size: 80, plan })
    const { suppliers } = await ratesOf(db)
    expect(suppliers.find(({ name }) => name === `Clean ${sampleSize}`)).toMatchObject({ insufficientData })
  })

  test('of two suppliers, put in order with a chance: the worse has next to none of being best', async () => {
    const { suppliers, pairs } = await compareSuppliers(db, runHere)
    const best = suppliers.map(({ ranked }) => ranked.chanceBest)
    expect(best.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9)
    expect(suppliers.find(({ name }) => name === 'Cedar')?.ranked.chanceBest).toBeLessThan(1e-6)
    expect(suppliers.map(({ name }) => name)).toEqual([...suppliers.map(({ name }) => name)].sort())
    // Only suppliers with enough cords are put in pairs: here one, so there is none.
    expect(pairs).toEqual([])
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
