// The closing decision on a screened lot.
import type { Db } from '../../../db/client.ts'
import { decisions } from '../../../db/schema/lots.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { gatherEvidence } from '../evidence/gather.ts'
import { changeLot } from '../record/lock.ts'
import { entriesOf, nonconformingOf, tallyOf } from '../record/tally.ts'
import { stateAfter } from '../rules/lifecycle.ts'
import { checkSignature, lockToDecide, type Signature } from './sign.ts'

/** sorted: the conforming cords are kept and the others sent back; returned: the whole lot is. */
export type Closing = { outcome: 'sorted' | 'returned' }

/** Closes a lot of which every cord is recorded. The plan has no say any more: each cord goes by its own result. */
export async function closeLot(db: Db, manager: Person, lotId: number, closing: Signature & Closing): Promise<void> {
  const reason = await checkSignature(db, manager, closing)
  await db.transaction(async (tx) => {
    const { outcome } = closing
    const lot = await lockToDecide(tx, manager, lotId, { version: closing.version, act: 'sort' })
    const tally = await tallyOf(tx, lotId)
    const recorded = entriesOf(tally)
    if (recorded !== lot.size)
      throw new Refusal('conflict', 'decision/screening-incomplete', { recorded, of: lot.size })
    const found = nonconformingOf(tally)
    await tx.insert(decisions).values({
      lotId,
      after: 'screening',
      outcome,
      reason,
      recorded,
      found,
      upperBoundInLot: found,
      evidence: await gatherEvidence(tx, lot),
      dutiesSeparated: manager.separateDuties,
      decidedBy: manager.id,
    })
    await changeLot(tx, lot, { state: stateAfter(outcome === 'sorted' ? 'sort' : 'return', lot.state) })
    const told = { reason, recorded, found, dutiesSeparated: manager.separateDuties }
    await record(tx, manager, outcome === 'sorted' ? 'lot.sorted' : 'lot.returned', `lot/${lotId}`, told)
  })
}
