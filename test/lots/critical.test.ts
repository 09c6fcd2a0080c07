// A critical item is always tested whole.
import { describe, expect, test } from 'vitest'
import { freezePlan } from '../../app/lots/acts/freeze-plan.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { freshDatabase } from '../support/database.ts'
import { receivedLot } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { aloud } from '../support/refusals.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)

describe('a lot of a critical item', () => {
  test('takes no plan but every cord', async () => {
    const lotId = await receivedLot(db, three, { terms: { critical: true } })
    const { version, size } = await factsOf(db, lotId)
    const sample = { version, kind: 'zero-acceptance', sampleSize: 5, acceptanceNumber: 0 } as const
    await expect(aloud(freezePlan(db, three.officer, lotId, sample))).rejects.toThrow('always tested whole')
    await freezePlan(db, three.officer, lotId, {
      version,
      kind: 'every-cord',
      sampleSize: size,
      acceptanceNumber: size,
    })
    expect((await factsOf(db, lotId)).plan).toMatchObject({ kind: 'every-cord', sampleSize: size })
  })
})
