// Drawn cords that cannot be had: what the database itself refuses of the service's login, whatever statement it sends.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, signature, testedLot, toTest } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { takeReserve } from '../support/ruling.ts'
import { asService } from '../support/service-login.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const send = (...statements: string[]) =>
  asService(owner, async (sql) => {
    for (const statement of statements) await sql.unsafe(statement)
  })

/** A copy of the accepted lot's decision, for another lot. */
const decision = (of: object) => `insert into decisions
  select (jsonb_populate_record(null::public.decisions, to_jsonb(d) || '${JSON.stringify(of)}')).* from public.decisions d`

describe('the service’s login', () => {
  test('lets a cord cease to be undecided only as another person ruled, who writes down what was known', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    await put(lotId, one, 'gone')
    await put(lotId, two, 'spoiled')
    const answer = (by: number, ruling: string) =>
      `insert into rulings (lot_id, position, ruling, reason, recorded, found, undecided, duties_separated, ruled_by)
        values (${lotId}, ${one}, '${ruling}', 'x', 99, 99, 99, true, ${by})`
    const counts = `update results set undecided = false, counts = true where lot_id = ${lotId} and position = ${one}`
    const aside = counts.replace('counts = true', 'counts = false')
    const { manager, inspector } = three
    const refused = (constraint_name: string, ...statements: string[]) =>
      expect(send(...statements)).rejects.toMatchObject({ constraint_name })
    await refused('rulings_by_another_person', answer(inspector.id, 'nonconforming'))
    await refused('rulings_carried_out', answer(manager.id, 'nonconforming'))
    await refused('results_with_their_past', counts)
    await refused('results_with_their_past', answer(manager.id, 'reserve'), counts)
    await refused('results_with_their_past', answer(manager.id, 'nonconforming'), aside)
    await refused('results_with_their_past', answer(manager.id, 'reserve'), aside) // no reserve is drawn
    await send(answer(manager.id, 'nonconforming'), counts)
    expect(await owner`select recorded, found, undecided from rulings where lot_id = ${lotId}`).toEqual([
      { recorded: 0, found: 0, undecided: 2 },
    ])
  })

  test('signs nothing but the return of a rejected lot while a cord is undecided', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0] = await toTest(db, lotId)
    await put(lotId, one, 'gone')
    const other = await testedLot(db, three, 0)
    await decideLot(db, three.manager, other, { ...(await signature(db, other)), outcome: 'accepted' })
    for (const of of [
      { verdict: 'accept', outcome: 'accepted' },
      { verdict: 'accept', outcome: 'returned', reason: 'x' },
      { verdict: 'reject', outcome: 'accepted', reason: 'x' },
      { verdict: 'reject', outcome: 'screened' },
    ])
      await expect(send(decision({ lot_id: lotId, ...of }))).rejects.toMatchObject({
        constraint_name: 'decisions_with_undecided',
      })
  })

  test('lets an entry cease to count only for the cord that stands in for it', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    await put(lotId, position, 'gone')
    const close = `update results set counts = false where lot_id = ${lotId} and position = ${position}`
    await expect(send(close)).rejects.toMatchObject({ constraint_name: 'results_with_their_past' })
    await takeReserve(db, three.manager, lotId, { key: randomUUID(), position })
    await expect(send(close.replace('false', 'true'))).rejects.toMatchObject({
      constraint_name: 'results_with_their_past',
    })
  })
})

async function put(lotId: number, position: number, kind: 'gone' | 'spoiled') {
  await recordResult(db, three.inspector, lotId, { key: randomUUID(), position, kind, note: 'not on its rack' })
}
