// What a history was read for is read again as soon as anything moves that it counts, and not before.
import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { historyNow, readUntilMoved } from '../../app/history/moved.ts'
import { runHere } from '../../app/kit/task.ts'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, failing, recordAll, signature, toTest } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)

test('every act that changes a count is seen, whatever closed lots there are', async () => {
  const lotId = await drawnLot(db, three)
  const other = await drawnLot(db, three)
  const seen = [await historyNow(db)]
  const [position = 0] = await toTest(db, lotId)
  await recordResult(db, three.inspector, lotId, { key: randomUUID(), position, ...clear })
  seen.push(await historyNow(db))
  const correction = { key: randomUUID(), position, entryNumber: 1, reason: 'misread', ...failing }
  await correctResult(db, three.inspector, lotId, correction)
  seen.push(await historyNow(db))
  await recordAll(db, three, lotId)
  seen.push(await historyNow(db))
  await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId, 'for the test')), outcome: 'accepted' })
  seen.push(await historyNow(db))
  const { version } = await factsOf(db, other)
  await withdrawLot(db, three.manager, other, { version, reason: 'for the test' })
  seen.push(await historyNow(db))
  expect(new Set(seen).size).toBe(seen.length)
})

test('it is read once a question until then', async () => {
  const asked: string[] = []
  const read = readUntilMoved(async (_db, which: { itemId: number }) => {
    asked.push(`item ${which.itemId}`)
    return { of: which.itemId }
  })
  expect([
    await read(db, { itemId: 1 }, runHere),
    await read(db, { itemId: 2 }, runHere),
    await read(db, { itemId: 1 }, runHere),
  ]).toEqual([{ of: 1 }, { of: 2 }, { of: 1 }])
  expect(asked).toEqual(['item 1', 'item 2'])
  const lotId = await drawnLot(db, three)
  await read(db, { itemId: 1 }, runHere)
  await recordAll(db, three, lotId)
  await read(db, { itemId: 1 }, runHere)
  expect(asked).toEqual(['item 1', 'item 2', 'item 1', 'item 1'])
})
