// A lot larger than what is written at once: nothing is lost or doubled where one part ends and the next begins.
import { expect, test } from 'vitest'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { drawLot } from '../../app/lots/acts/draw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { drawUnits } from '../../app/statistics/draw.ts'
import { freshDatabase } from '../support/database.ts'
import { plannedLot, signature, testedLot } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const size = 100_003
const terms = { tooMany: '1%' }

test('a lot of 100,003 cords drawn whole keeps every pick of its seed', async () => {
  const plan = { kind: 'every-cord', sampleSize: size, acceptanceNumber: size } as const
  const lotId = await plannedLot(db, three, { size, terms, plan })
  await drawLot(db, three.inspector, lotId, () => '314159265358979323846264')
  const picks = drawUnits({ lotSize: size, sampleSize: size, seed: '314159265358979323846264' })
  const [kept] = await owner`
    select count(*)::int as cords, count(distinct pick)::int as picks, max(pick) as last from drawn_cords where lot_id = ${lotId}`
  expect(kept).toEqual({ cords: size, picks: size, last: size })
  const around = await owner`
    select position from drawn_cords where lot_id = ${lotId} and pick between 99999 and 100003 order by pick`
  expect(around.map((cord) => cord.position)).toEqual(picks.slice(99_998))
})

test('a lot of 100,003 cords screened puts each of the others on the bench once', async () => {
  const lotId = await testedLot(db, three, 2, { size, terms })
  await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'screened' })
  const [kept] = await owner`
    select count(*)::int as cords, count(*) filter (where purpose = 'rest')::int as rest, max(position) as last
    from drawn_cords where lot_id = ${lotId}`
  expect(kept).toEqual({ cords: size, rest: size - 6, last: size })
  expect((await factsOf(db, lotId)).progress.toDo).toBe(size - 6)
})

test('a position outside the lot is refused by the database, added or moved', async () => {
  const lotId = await testedLot(db, three, 0)
  const outside = { code: '23514', constraint_name: 'drawn_cords_inside_the_lot' }
  await expect(
    owner`insert into drawn_cords (lot_id, position, purpose) values (${lotId}, 1, 'rest'), (${lotId}, 25, 'rest')`,
  ).rejects.toMatchObject(outside)
  await owner`insert into drawn_cords (lot_id, position, purpose) values (${lotId}, 1, 'rest')`
  await expect(
    owner`update drawn_cords set position = 25 where lot_id = ${lotId} and purpose = 'rest'`,
  ).rejects.toMatchObject(outside)
})
