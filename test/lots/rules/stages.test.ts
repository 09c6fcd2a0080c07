// What plans of several stages may be frozen, and what the database holds against each other in them.
import { describe, expect, test } from 'vitest'
import { freezePlan } from '../../../app/lots/acts/freeze-plan.ts'
import type { ChosenPlan } from '../../../app/lots/acts/write-plan.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { freshDatabase } from '../../support/database.ts'
import { drawnLot, receivedLot, recordAll } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber = acceptanceNumber + 1) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})
const double = { kind: 'double', stages: [stage(3, 0, 2), stage(6, 1)] } as const

describe('a plan of several stages', () => {
  test('is frozen with all its numbers, which the database holds against its last ones', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const { plan } = await factsOf(db, lotId)
    expect(plan).toMatchObject({ ...double, sampleSize: 6, acceptanceNumber: 1 })
    const copy = (change: string) =>
      owner.unsafe(`with old as (select (to_jsonb(p) || '${change}') as row from plans p
      where lot_id = ${lotId}) insert into plans select (jsonb_populate_record(null::plans, row)).* from old`)
    for (const change of ['{"sample_size": 5}', '{"acceptance_number": 2}', '{"stages": {}}'])
      await expect(copy(change), change).rejects.toMatchObject({ constraint_name: 'plans_last_stage' })
    await expect(copy('{"kind": "single"}')).rejects.toMatchObject({ constraint_name: 'plans_stages_of_their_kind' })
  })

  test.each([
    { kind: 'double', stages: [stage(3, 0)], why: 'Two samples' },
    { kind: 'double', stages: [stage(3, 0, 2), stage(6, 0, 2), stage(9, 1)], why: 'Two samples' },
    { kind: 'double', stages: [stage(3, 0, 2), stage(25, 1)], why: 'no plan for 24 cords' },
    { kind: 'double', stages: [stage(3, 0, 2), stage(3, 1)], why: 'at least one cord' },
    { kind: 'double', stages: [stage(0, 0, 2), stage(3, 1)], why: 'at least one cord' },
    { kind: 'double', stages: [stage(3, 1, 3), stage(6, 0)], why: 'accepts no fewer' },
    { kind: 'double', stages: [stage(3, 0, 3), stage(6, 1)], why: 'rejects from no fewer' },
    { kind: 'double', stages: [stage(3, 1, 1), stage(6, 1)], why: 'rejectionNumber of stage 1' },
    { kind: 'double', stages: [stage(3, 0, 2), stage(6, 1, 3)], why: 'rejectionNumber of stage 2' },
    { kind: 'double', stages: [stage(3, -1, 1), stage(6, 6)], why: 'from 0 to 5' },
    { kind: 'double', stages: [stage(3, -1, 0), stage(6, -1)], why: 'from 0 to 5' },
    { kind: 'double', stages: [stage(2.5, 0, 2), stage(6, 1)], why: 'sampleSize of stage 1' },
    { kind: 'double', stages: [stage(Number.NaN, 0, 2), stage(6, 1)], why: 'at least one cord' },
    { kind: 'sequential', stages: [stage(1, -1, 2), stage(3, 0)], why: 'each stage adds one cord' },
    { kind: 'sequential', stages: [], why: 'Cord by cord' },
    { kind: 'standard', stages: [stage(3, 0, 2), stage(6, 0, 2), stage(9, 1)], why: 'one or two samples' },
  ] satisfies (ChosenPlan & { why: string })[])(
    '$kind $stages is refused for 24 cords: $why',
    async ({ why, ...plan }) => {
      const lotId = await receivedLot(db, three)
      const { version } = await factsOf(db, lotId)
      const refused = {
        name: 'Refusal',
        kind: 'invalid',
        field: 'stages',
        message: expect.stringMatching(new RegExp(why, 'i')),
      }
      await expect(
        aloud(freezePlan(db, three.officer, lotId, { version, reason: 'for the test', ...plan })),
      ).rejects.toMatchObject(refused)
      expect((await factsOf(db, lotId)).state).toBe('received')
    },
  )

  test('of the standard may look once', async () => {
    const lotId = await drawnLot(db, three, { plan: { kind: 'standard', stages: [stage(5, 1)] } })
    await recordAll(db, three, lotId, 1)
    expect((await factsOf(db, lotId)).verdict).toBe('accept')
  })
})
