// A results file into a drawn lot: every row or none.
import { randomUUID } from 'node:crypto'
import { setTimeout as sleep } from 'node:timers/promises'
import { describe, expect, test } from 'vitest'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../../app/lots/acts/withdraw.ts'
import { cordOf } from '../../../app/lots/record/cord.ts'
import { lockLot } from '../../../app/lots/record/lock.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { columnsOf } from '../../../app/lots/record/row.ts'
import { results } from '../../../db/schema/results.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, sendFile, toTest } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
const rowFor = (position: number, margin = '2.40') => `${position},${margin},3.1,in order,in order,AT-1`
const file = (rows: string[]) => [heading, ...rows].join('\n')

/** Until a session of this database waits for a row. */
async function somebodyWaits(): Promise<void> {
  const waiting = () =>
    owner`select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`
  while ((await waiting()).length === 0) await sleep(10)
}

describe('a results file', () => {
  test('records every row, judged by the frozen terms, in the order of the file', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0, ...others] = await toTest(db, lotId)
    const text = file([...others.map((position) => rowFor(position)), rowFor(two, '-0.04'), rowFor(one, '-3')])
    expect(await sendFile(db, inspector, lotId, text)).toEqual({ kind: 'recorded', count: 6 })
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      verdict: 'reject',
      rejectedSince: { position: one },
      progress: { sampleRecorded: 6, sampleNonconforming: 2 },
    })
    expect((await cordOf(db, lotId, two)).result).toMatchObject({
      state: 'does-not-conform',
      reading: { crosstalkMargin: '-0.04', testerSerial: 'AT-1' },
    })
    expect((await cordOf(db, lotId, others[0] ?? 0)).result?.reading).toMatchObject({ crosstalkMargin: '2.40' })
    expect(facts.audit[0]).toMatchObject({ action: 'cords.imported', personName: inspector.name, detail: { count: 6 } })
  })

  test('with one bad row records nothing, and names every row in the way with its line', async () => {
    const lotId = await drawnLot(db, three)
    const drawn = await toTest(db, lotId)
    const [one = 0, two = 0, three_ = 0] = drawn
    const other = [1, 2, 3, 4, 5, 6, 7].find((position) => !drawn.includes(position)) ?? 0
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: one, ...clear })
    const text = file([rowFor(two), rowFor(one), rowFor(other), rowFor(two), 'x,1,1,pass,pass,', rowFor(three_, '')])
    const answer = await sendFile(db, inspector, lotId, text)
    expect(answer).toMatchObject({
      kind: 'refused',
      bad: {
        inAll: 5,
        named: [
          { line: 3, reason: `Cord ${one} is recorded already` },
          { line: 4, reason: `Cord ${other} was not drawn` },
          { line: 5, reason: `Cord ${two} stands in line 2 of this file too` },
          { line: 6 },
          { line: 7 },
        ],
      },
    })
    expect((await factsOf(db, lotId)).progress.sampleRecorded).toBe(1)
  })

  test('refused does not use up its form; sent twice at once it is recorded once', async () => {
    const lotId = await drawnLot(db, three)
    const positions = await toTest(db, lotId)
    const key = randomUUID()
    expect((await sendFile(db, inspector, lotId, 'nothing', key)).kind).toBe('refused')
    const text = file(positions.map((position) => rowFor(position)))
    const answers = await Promise.all([1, 2, 3].map(() => sendFile(db, inspector, lotId, text, key)))
    expect(answers).toEqual(Array(3).fill({ kind: 'recorded', count: 6 }))
    expect((await factsOf(db, lotId)).audit.filter((line) => line.action === 'cords.imported')).toHaveLength(1)
  })

  test('is the warehouse inspector’s to send, of a lot under test', async () => {
    const lotId = await drawnLot(db, three)
    const text = file([rowFor((await toTest(db, lotId))[0] ?? 0)])
    for (const other of [officer, manager])
      await expect(sendFile(db, other, lotId, text)).rejects.toMatchObject({
        kind: 'forbidden',
      })
    await withdrawLot(db, manager, lotId, { version: (await factsOf(db, lotId)).version, reason: 'x' })
    await expect(sendFile(db, inspector, lotId, text)).rejects.toMatchObject({
      kind: 'conflict',
    })
  })

  test('is looked at again where the lot changed while it waited for it', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    let sent: Promise<unknown> = Promise.resolve()
    await db.transaction(async (tx) => {
      await lockLot(tx, lotId)
      sent = sendFile(db, inspector, lotId, file([rowFor(one), rowFor(two)]))
      await somebodyWaits()
      const entry = columnsOf(clear, { state: 'conforms', nonconforming: false, findings: [] })
      await tx.insert(results).values({ lotId, position: two, ...entry, recordedBy: inspector.id })
    })
    expect(await sent).toMatchObject({
      kind: 'refused',
      bad: { inAll: 1, named: [{ line: 3, reason: `Cord ${two} is recorded already` }] },
    })
    expect((await factsOf(db, lotId)).progress.sampleRecorded).toBe(1)
  })

  test('may hold more rows than one statement takes', async () => {
    const size = 4500
    const lotId = await drawnLot(db, three, {
      size,
      plan: { kind: 'every-cord', sampleSize: size, acceptanceNumber: size },
    })
    const text = file(Array.from({ length: size }, (_, i) => rowFor(i + 1, i % 9 === 0 ? '-1' : '5')))
    expect(await sendFile(db, inspector, lotId, text)).toEqual({
      kind: 'recorded',
      count: size,
    })
    expect((await factsOf(db, lotId)).progress).toMatchObject({
      sampleRecorded: size,
      sampleNonconforming: 500,
      toDo: 0,
    })
  })
})
