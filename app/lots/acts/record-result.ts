// The inspector's result of one drawn cord.
import type { Db, Tx } from '../../../db/client.ts'
import { results } from '../../../db/schema/results.ts'
import { statement } from '../../../db/statement.ts'
import { record } from '../../audit/record.ts'
import { allOf } from '../../kit/all-of.ts'
import { Refusal } from '../../kit/refusal.ts'
import { onceInOneGo } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { lockLotUnderTest, requireState } from '../record/lock.ts'
import { requireItsStage } from '../record/open-stage.ts'
import { enteredUnder, recordedInput } from '../record/sent.ts'
import { completeIfScreened, cordUnderTest, keptAs, standingResult } from '../record/testing.ts'
import type { Entry } from '../rules/entry.ts'
import { type AssessedEntry, assessedBy, checkedEntry } from '../rules/reading.ts'

/**
 * Records one result and says what it comes to. A cord has one result: of two inspectors the second is told who was
 * first. The same form sent again changes nothing and gets the same answer; with other values in it, it is refused.
 */
export async function recordResult(
  db: Db,
  inspector: Person,
  lotId: number,
  { key, position, ...said }: Entry & { key: string; position: number },
): Promise<AssessedEntry> {
  const entry = checkedEntry(said)
  const subject = `lot/${lotId}/cord/${position}`
  const transaction = (work: (tx: Tx) => Promise<AssessedEntry>) => db.transaction(work)
  return onceInOneGo(transaction, async (tx, once) => {
    const [, lot, { plan, drawn, recorded }] = await allOf([
      requireStanding(tx, inspector, 'record-result'),
      lockLotUnderTest(tx, lotId),
      cordUnderTest(tx, lotId, position),
    ])
    const judged = assessedBy(entry, plan)
    const standing = recorded ? await standingResult(tx, lotId, position) : undefined
    const kept = await enteredUnder(tx, standing, key)
    const input = recordedInput(entry)
    await once(tx, { key, person: inspector, act: 'cord.recorded' as const, subject, input, kept }, async () => {
      requireState(lot, 'record')
      if (!drawn) throw new Refusal('invalid', 'cord/not-drawn', { position }, 'position')
      if (standing) throw new Refusal('conflict', 'cord/recorded-before', { position, recordedBy: standing.recordedBy })
      await requireItsStage(tx, lot, plan, drawn)
      const row = { lotId, position, ...keptAs(entry, judged, lot, plan), formKey: key, recordedBy: inspector.id }
      await allOf([
        addEntry(tx, row),
        completeIfScreened(tx, inspector, lot).then(() => record(tx, inspector, 'cord.recorded', subject, {})),
      ])
      return position
    })
    return judged
  })
}

const columns = [
  'lotId',
  'position',
  'kind',
  'crosstalkMargin',
  'returnLossMargin',
  'wireMap',
  'visual',
  'state',
  'nonconforming',
  'note',
  'carton',
  'spool',
  'testerSerial',
  'recordedBy',
  'formKey',
  'counts',
  'undecided',
] as const
type FirstEntry = Required<Pick<typeof results.$inferInsert, (typeof columns)[number]>>
const addEntry = statement<FirstEntry>('entry', columns).worded((db, row) => db.insert(results).values(row))
