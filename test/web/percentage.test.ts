// The page of the percentage question on the example, and the counts by spool behind it.
import { eq, sql } from 'drizzle-orm'
import { beforeAll, describe, expect, test } from 'vitest'
import { factsOfSpools } from '../../app/history/replay/remainders.ts'
import { markedSpools } from '../../app/history/replay/spools.ts'
import { databaseOver } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { suppliers } from '../../db/schema/register.ts'
import { plantExample } from '../../seed/example.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { textOf } from '../support/page-text.ts'

const { db, owner } = await freshDatabase()
let officer: Client
let loom = 0

beforeAll(async () => {
  await plantExample(databaseOver(owner))
  const [person] = await db.select().from(people).where(eq(people.role, 'officer'))
  const [supplier] = await db.select().from(suppliers).where(eq(suppliers.name, 'Long Loom Works'))
  if (!person || !supplier) throw new Error('the example lacks somebody')
  officer = await testApp(db).appAs({ ...person, separateDuties: true })
  loom = supplier.id
})

const page = async (query: string) => {
  const answer = await officer.get(`/percentage${query}`)
  return { status: answer.status, text: textOf(await answer.text()) }
}

describe('the percentage question', () => {
  test('over everything, with what each saved test cost', async () => {
    const { status, text } = await page('')
    expect(status).toBe(200)
    expect(text).toContain('Lots of every item from every supplier')
    // an own sum over the ten lots, in exact whole numbers: 1.57 spared; .54 in escapes and .45 in 4.10 returned lots; screened .88 of 1,710 tests
    expect(text).toContain(
      'each spares EUR 1.57 and costs EUR 0.99: EUR 0.54 in cords that escape, EUR 0.45 in lots returned',
    )
    expect(text).toMatch(/It would have rejected 4\.1 lots on average/)
    expect(text).toMatch(/Where these are screened, 1,710 tests are saved; each spares EUR 1\.\d\d and costs EUR 0\.88/)
    expect(text).toContain('one-sided test of Tarone')
  })

  test('of one supplier, with every cord tested: none is shipped and no test saved', async () => {
    const { text } = await page(`?supplier=${loom}&percent=100`)
    expect(text).toContain('Lots from Long Loom Works')
    expect(text).toContain('shipped 0 cords that do not conform')
    expect(text).toContain('saved no test')
  })

  test.each([
    ['?percent=0', 422, 'A percentage is above 0'],
    ['?percent=ten', 422, 'A percentage is above 0'],
    ['?allowed=-1', 422, 'a whole number from 0'],
    ['?supplier=x', 422, 'Choose a supplier of the list'],
    ['?supplier=99999', 404, 'There is no supplier 99999'],
  ])('answers %s with %i', async (query, status, sentence) => {
    const answer = await page(query)
    expect(answer.status).toBe(status)
    expect(answer.text).toContain(sentence)
  })
})

describe('the counts by spool', () => {
  const recount = () => owner`
    select lot_id, spool, count(*)::int as recorded, count(*) filter (where nonconforming)::int as nonconforming
    from results where spool is not null and kind = 'tested' group by 1, 2 order by 1, 2`
  const kept = () => owner`
    select lot_id, spool, recorded, nonconforming from spool_tallies where recorded > 0 order by 1, 2`

  test('are those of the results, also after entries were changed', async () => {
    expect(await kept()).toEqual(await recount())
    await owner`
      update results set spool = 'W99', return_loss_margin = -1, state = 'does-not-conform', nonconforming = true
      where lot_id in (select id from lots where state in ('drawn', 'screening')) and position % 3 = 0 and wire_map = 'in-order'`
    expect(await kept()).toEqual(await recount())
  })

  test('say how alike cords of a spool are: a spool-like item much, where another is not', async () => {
    const facts = factsOfSpools(await markedSpools(db, { supplierId: loom }))
    const [row] = await db.execute<{ cords: number }>(sql`
      select count(*)::int as cords from results r join lots l on l.id = r.lot_id
      where l.supplier_id = ${loom} and r.spool is not null`)
    expect(facts.cords).toBe(row?.cords)
    if (facts.correlation?.kind !== 'estimated') throw new Error('the spools of the example tell nothing')
    expect(facts.correlation.likelihood).toBeGreaterThan(0.5)
    expect(facts.correlation.pValue).toBeLessThan(0.001)
  })
})
