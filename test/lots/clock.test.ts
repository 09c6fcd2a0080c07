// When a lot last moved, and a clock that steps back: a lot whose last time lies ahead is the same as a clock that stands behind.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { lotsWaiting } from '../../app/desk/work-list.ts'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, failing, recordAll, sendFile, signature, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

const movedAt = async (lotId: number) => {
  const [lot] = await owner<{ at: string }[]>`select moved_at::text as at from lots where id = ${lotId}`
  return lot?.at ?? ''
}
const setMoved = (lotId: number, ahead: string) =>
  owner`update lots set moved_at = now() + ${ahead}::interval where id = ${lotId}`

describe('a lot', () => {
  test('is moved by an entry, a correction and a file, so that it waits no longer', async () => {
    const lotId = await drawnLot(db, three)
    const [first = 0, second] = await toTest(db, lotId)
    const correction = { position: first, entryNumber: 1, reason: 'typed wrongly', ...failing }
    const text = `position,crosstalk margin,return loss margin,wire map,visual,tester serial\n${second},3.1,2.2,pass,pass,T-1`
    const work = [
      () => recordResult(db, inspector, lotId, { key: randomUUID(), position: first, ...clear }),
      () => correctResult(db, inspector, lotId, { key: randomUUID(), ...correction }),
      async () =>
        expect(await sendFile(db, inspector, lotId, text)).toEqual({
          kind: 'recorded',
          count: 1,
        }),
    ]
    for (const act of work) {
      await setMoved(lotId, '-9 days')
      await act()
      const { waiting } = await lotsWaiting(db)
      const line = waiting.flatMap(({ lots }) => lots).find(({ id }) => id === lotId)
      expect(line?.since.toISOString().slice(0, 10)).toBe(new Date().toISOString().slice(0, 10))
    }
  })
})

describe('a clock that steps two hours back', () => {
  let lotId = 0
  let ahead = ''
  beforeAll(async () => {
    lotId = await drawnLot(db, three)
    const [first = 0] = await toTest(db, lotId)
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: first, ...clear })
    await setMoved(lotId, '2 hours')
    ahead = await movedAt(lotId)
    await recordAll(db, three, lotId)
    await correctResult(db, inspector, lotId, {
      key: randomUUID(),
      position: first,
      entryNumber: 1,
      reason: 'typed wrongly',
      ...clear,
    })
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
  })

  test('puts no result, correction or decision before the lot’s last time, and no result after the decision', async () => {
    const [found] = await owner`
      select (select count(*) from results where lot_id = ${lotId} and recorded_at < ${ahead}::text::timestamptz)::int as results,
        (select count(*) from earlier_results where lot_id = ${lotId} and corrected_at < ${ahead}::text::timestamptz)::int as corrections,
        (select count(*) from results r join decisions d using (lot_id) where r.lot_id = ${lotId} and r.recorded_at > d.decided_at)::int as late,
        (select decided_at >= ${ahead}::text::timestamptz from decisions where lot_id = ${lotId}) as decided`
    expect(found).toEqual({ results: 0, corrections: 0, late: 0, decided: true })
  })

  test('puts no line of the audit about the lot before the one that was written before it', async () => {
    const [found] = await owner`select count(*)::int as lines, count(*) filter (where at < before)::int as back from (
      select at, lag(at) over (order by id) as before from audit where subject = ${`lot/${lotId}`} or subject like ${`lot/${lotId}/%`}) a`
    expect(found?.lines).toBeGreaterThan(10)
    expect(found?.back).toBe(0)
  })

  test('stands on the record: in the lines, on the lot’s page, and not on another lot’s', async () => {
    const lines = await owner<
      { behind: number | null }[]
    >`select clock_behind as behind from audit where subject = ${`lot/${lotId}`} order by id`
    const first = lines.slice(0, 4).map(({ behind }) => behind)
    expect(first).toEqual([null, null, null, null]) // announced, received, planned, drawn
    expect(Math.ceil((lines.at(-1)?.behind ?? 0) / 600)).toBe(12) // less than ten minutes below two hours
    const reader = await testApp(db).appAs(manager)
    const page = async (path: string) => textOf(await (await reader.get(path)).text())
    expect(await page(`/lots/${lotId}`)).toContain('The machine’s clock stood up to 2 hours behind')
    expect(await page(`/audit?about=lot/${lotId}`)).toContain('(the clock stood 2 hours behind)')
    expect((await factsOf(db, await drawnLot(db, three))).clockBehind).toBeUndefined()
  })

  test('puts a line about anything else not before the last one of its own', async () => {
    await owner`insert into audit (at, person_name, action, subject, detail) values (now() + interval '1 day', 'x', 'item.changed', 'item/77', '{}')`
    await db.execute(
      "insert into audit (person_name, action, subject, detail) values ('x', 'item.changed', 'item/77', '{}')",
    )
    const [kept] =
      await owner`select count(distinct at)::int as times, max(clock_behind) > 86000 as told from audit where subject = 'item/77'`
    expect(kept).toEqual({ times: 1, told: true })
  })
})
