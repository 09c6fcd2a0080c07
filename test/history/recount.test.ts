// The job that holds stored counts against a recount: silent after a whole example, and an error for each kind of damage.
import { describe, expect, test } from 'vitest'
import { recount } from '../../app/history/recount.ts'
import { plantExample } from '../../seed/example.ts'
import { freshDatabase } from '../support/database.ts'

const { db, owner, ownerDb } = await freshDatabase()
await plantExample(ownerDb)

/** One recount of everything. */
async function whole(): Promise<void> {
  const slice = recount()
  while (await db.transaction(slice));
}

describe('the recount', () => {
  test('finds every stored count as it is counted anew', async () => {
    const [kept] = await owner`select count(*)::int as series, sum(lots)::int as lots from series_counts`
    expect(kept?.series).toBeGreaterThan(3)
    expect(kept?.lots).toBeGreaterThan(10)
    await expect(whole()).resolves.toBeUndefined()
  })

  test.each([
    [
      'a tally',
      'update tallies set sample_nonconforming = sample_nonconforming + 1 where lot_id = 3',
      /the tally of lot 3 /,
    ],
    ['stand-ins', 'update tallies set stand_ins = stand_ins + 1 where lot_id = 2', /the tally of lot 2 /],
    [
      'a first fetch',
      'update tallies set first_fetch_recorded = first_fetch_recorded + 1 where lot_id = 2',
      /the tally of lot 2 /,
    ],
    ['a series', 'update series_counts set recorded = recorded - 1 where supplier_id = 1', /the counts of series 1\/1/],
    ['a series left out', 'delete from series_counts where supplier_id = 2', /the counts of series 2\//],
  ])('names %s that was changed behind it', async (_what, damage, found) => {
    const before = { tallies: await owner`select * from tallies`, series: await owner`select * from series_counts` }
    await owner.unsafe(damage)
    await expect(whole()).rejects.toThrow(found)
    await owner.begin(async (tx) => {
      await tx`delete from tallies`
      await tx`delete from series_counts`
      await tx`insert into tallies ${tx(before.tallies)}`
      await tx`insert into series_counts ${tx(before.series)}`
    })
    await expect(whole()).resolves.toBeUndefined()
  })
})
