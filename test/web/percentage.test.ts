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
import { exactAtMost, exactShipped } from '../support/exact.ts'
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

/** The lots tested whole, read cord by cord, and a tenth of each replayed in whole numbers. In cents. */
async function summedApart() {
  const lots = await owner<{ size: number; found: number; test: number; escaped: number; back: number }[]>`
    select p.lot_size as size, count(*) filter (where r.nonconforming)::int as found,
      p.cost_test_cents as test, p.cost_escape_cents as escaped, p.cost_return_cents as back
    from plans p join results r on r.lot_id = p.lot_id join lots l on l.id = p.lot_id
    where l.state <> 'withdrawn' group by p.lot_id having count(*) = p.lot_size`
  const sums = { shipped: 0, testing: 0, escapes: 0, returns: 0, everyCord: 0 }
  for (const { size: N, found: D, test, escaped, back } of lots) {
    const n = Math.ceil(N / 10)
    const shipped = exactShipped({ N, D, n, c: 0 })
    sums.shipped += shipped
    sums.testing += n * test
    sums.escapes += shipped * escaped
    sums.returns += (1 - exactAtMost({ N, D, n, c: 0 })) * back
    sums.everyCord += N * test
  }
  return sums
}

const euros = (cents: number) =>
  `EUR ${(Math.round(cents) / 100).toLocaleString('en', { minimumFractionDigits: 2, maximumFractionDigits: 2 })}`

describe('the percentage question', () => {
  test('over everything, with what it lets through and what all of it costs', async () => {
    const { status, text } = await page('')
    expect(status).toBe(200)
    expect(text).toContain('Lots of every item from every supplier')
    const sums = await summedApart()
    expect(text).toContain(
      `let ${Math.round(sums.shipped)} nonconforming cords through, for ${euros(sums.testing + sums.escapes + sums.returns)} in all.`,
    )
    expect(text).toContain(`In all it would have cost ${euros(sums.testing + sums.escapes + sums.returns)}`)
    expect(text).toContain(`${euros(sums.escapes)} for cords that escape, ${euros(sums.returns)} for lots sent back`)
    expect(text).toContain(`Testing every cord costs ${euros(sums.everyCord)}`)
    expect(text).toContain('one-sided test of Tarone')
  })

  test('names the four samples side by side, and says what the last one knows', async () => {
    const { text } = await page('')
    for (const name of ['10 % of each lot', 'the same effort', 'own risk, none allowed', 'looking back', 'every cord'])
      expect(text).toContain(name)
    expect(text).toContain('which nobody knew before they came')
  })

  test('of one supplier, with every cord tested: none is shipped', async () => {
    const { text } = await page(`?supplier=${loom}&percent=100`)
    expect(text).toContain('Lots from Long Loom Works')
    expect(text).toContain('let 0 nonconforming cords through')
  })

  test('shows one lot cord by cord, and another sample of it at “Draw again”', async () => {
    const { text } = await page(`?supplier=${loom}&draw=2`)
    expect(text).toContain('One sample of lot')
    const html = await (await officer.get(`/percentage?supplier=${loom}&draw=2`)).text()
    expect(html).toContain('draw=3#drawn')
  })

  test('stood once on a page for each supplier: its address leads here', async () => {
    const answer = await officer.get(`/suppliers/${loom}/percentage?percent=20&lot=4`)
    expect(answer.status).toBe(301)
    expect(answer.headers.get('location')).toBe(`/percentage?percent=20&lot=4&supplier=${loom}`)
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
