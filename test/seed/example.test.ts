// The example is planted through the domain verbs and shows every situation that the pages speak of.
import { eq, sql } from 'drizzle-orm'
import { beforeAll, describe, expect, test } from 'vitest'
import { countedLots } from '../../app/history/counted-lots.ts'
import { finishedLots } from '../../app/history/finished.ts'
import { databaseOver } from '../../db/client.ts'
import { audit } from '../../db/schema/audit.ts'
import { lots } from '../../db/schema/lots.ts'
import { suppliers } from '../../db/schema/register.ts'
import { results, tallies } from '../../db/schema/results.ts'
import { plantExample } from '../../seed/example.ts'
import { freshDatabase } from '../support/database.ts'

const { db, owner } = await freshDatabase()
beforeAll(() => plantExample(databaseOver(owner)))

/** Shares of recorded cords that count as nonconforming, lot after lot. */
async function sharesOf(supplier: string): Promise<number[]> {
  const rows = await db
    .select({
      share: sql<number>`(${tallies.sampleNonconforming} + ${tallies.restNonconforming})::float8 / (${tallies.sampleRecorded} + ${tallies.restRecorded})`,
    })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .where(eq(suppliers.name, supplier))
    .orderBy(lots.id)
  return rows.map((row) => row.share)
}

async function idOf(name: string): Promise<number> {
  const [supplier] = await db.select().from(suppliers).where(eq(suppliers.name, name))
  if (!supplier) throw new Error(`the example has no ${name}`)
  return supplier.id
}

describe('the example', () => {
  test.each(['announced', 'received', 'planned', 'drawn', 'accepted', 'screening', 'sorted', 'returned'] as const)(
    'has a lot that is %s',
    async (state) => {
      expect(await db.$count(lots, eq(lots.state, state))).toBeGreaterThan(0)
    },
  )

  test('has a steady supplier', async () => {
    for (const share of await sharesOf('Brass Heron Leads')) expect(share).toBeLessThan(0.01)
  })

  test('has a drifting supplier', async () => {
    const shares = await sharesOf('Tidewater Thimble')
    expect(shares[0]).toBe(0)
    expect(shares.toSorted((a, b) => a - b)).toEqual(shares)
    expect(shares.at(-1)).toBeGreaterThan(0.04)
  })

  test('has a supplier that mixes two workshops: one carton in three is much worse', async () => {
    const counted = await db.execute<{ worse: boolean; share: number }>(sql`
      select ceil(r.position / 24.0)::int % 3 = 0 as worse, avg(r.nonconforming::int)::float8 as share
      from results r join lots l on l.id = r.lot_id join suppliers s on s.id = l.supplier_id
      where s.name = 'Two Kilns Patch' group by 1 order by 1`)
    expect(counted[1]?.share).toBeGreaterThan(5 * (counted[0]?.share ?? 1))
  })

  test('has a spool-like item: the nonconforming cords of a lot share spools', async () => {
    const spools = await db.execute<{ cords: number; nonconforming: number }>(sql`
      select count(*)::int as cords, count(*) filter (where r.nonconforming)::int as nonconforming
      from results r join lots l on l.id = r.lot_id join suppliers s on s.id = l.supplier_id
      where s.name = 'Long Loom Works' group by r.lot_id, r.spool having count(*) filter (where r.nonconforming) > 0`)
    const cordsIn = (some: readonly { nonconforming: number }[]) =>
      some.reduce((sum, { nonconforming }) => sum + nonconforming, 0)
    const nearlyWhole = spools.filter(({ cords, nonconforming }) => nonconforming / cords > 0.8)
    expect(cordsIn(nearlyWhole) / cordsIn(spools)).toBeGreaterThan(0.8)
  })

  test('has cords sold above their real category: nearly all fall short', async () => {
    for (const share of await sharesOf('Gilded Fern Supply')) expect(share).toBeGreaterThan(0.9)
  })

  test('has a new supplier without a decided lot', async () => {
    const states = await db
      .select({ state: lots.state })
      .from(lots)
      .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
      .where(eq(suppliers.name, 'Paper Lark Cords'))
    expect(states.map(({ state }) => state)).toEqual(['drawn', 'announced'])
  })

  test('has lots tested whole from 60 cords to 3,000', async () => {
    const [whole] = await owner<{ least: number; most: number }[]>`
      select min(p.lot_size)::int as least, max(p.lot_size)::int as most
      from plans p join tallies t using (lot_id) where t.sample_recorded + t.rest_recorded = p.lot_size`
    expect(whole).toEqual({ least: 60, most: 3000 })
  })

  test.each(['Brass Heron Leads', 'Tidewater Thimble'])(
    'has six finished lots of one item from %s',
    async (supplier) => {
      const finished = finishedLots(await countedLots(db, { supplierId: await idOf(supplier) }))
      expect(finished.length).toBeGreaterThanOrEqual(6)
    },
  )

  test('has 150 margins of one item and mark from five finished samples, about four spreads above both limits', async () => {
    const supplierId = await idOf('Slate Wren Leads')
    expect(finishedLots(await countedLots(db, { supplierId }))).toHaveLength(5)
    const [margins] = await owner<Record<string, number>[]>`
      select count(*)::int as cords, count(distinct l.production_mark)::int as marks, count(distinct l.item_id)::int as items,
        (avg(r.crosstalk_margin) / stddev_samp(r.crosstalk_margin))::float8 as crosstalk,
        (avg(r.return_loss_margin) / stddev_samp(r.return_loss_margin))::float8 as loss
      from results r join lots l on l.id = r.lot_id where l.supplier_id = ${supplierId}`
    expect(margins).toMatchObject({ cords: 150, marks: 1, items: 1 })
    for (const spreads of [margins?.crosstalk, margins?.loss]) {
      expect(spreads).toBeGreaterThan(3.5)
      expect(spreads).toBeLessThan(4.6)
    }
  })

  test('has a plan that froze with the receipt by the officer’s rule, and a lot that will be met by one', async () => {
    const frozen = await owner`select 1 from plans where chosen_by is not null and frozen_by <> chosen_by`
    const waiting = await owner`select 1 from plan_rules join lots l on l.id = lot_id where l.state = 'announced'`
    expect([frozen.length, waiting.length]).toEqual([1, 1])
  })

  test('has a lot that was sent back and came again, and a clause of a contract that stands with each plan', async () => {
    const again = await owner`select 1 from lots where resubmission_of is not null and state = 'received'`
    const quoted = await owner`select 1 from plans where clause_number = '4.2'`
    expect(again.length).toBe(1)
    expect(quoted.length).toBeGreaterThan(10)
  })

  test('went through the verbs: the audit tells of every lot and every cord', async () => {
    const [told] = await db.select({ cords: sql<number>`sum((${audit.detail} ->> 'count')::int)::int` }).from(audit)
    expect(await db.$count(audit, eq(audit.action, 'lot.announced'))).toBe(await db.$count(lots))
    expect(told?.cords).toBe(await db.$count(results))
  })
})
