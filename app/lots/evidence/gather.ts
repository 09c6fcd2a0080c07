// Puts together what a decision rests on, inside the transaction that signs it.
import { inArray } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotLinks } from '../record/former.ts'
import type { LockedLot } from '../record/lock.ts'
import { lotRecordOf } from '../record/lot.ts'
import type { NotHad } from '../record/not-had.ts'
import { digestOf } from './digest.ts'
import { columns, type EvidenceDocument, VERSION } from './format.ts'
import { method } from './method.ts'

/**
 * The evidence as it is stored with a decision. The lot is locked, so the rows that are read slice by slice are those of
 * its version. Throws Refusal where the lot is not drawn or the plan has no verdict.
 */
export async function gatherEvidence(tx: Tx, { id: lotId, version: lotVersion }: LockedLot): Promise<EvidenceDocument> {
  const { announced, supplier, item, terms, links, plan, draw, bounds, ...record } = await lotRecordOf(tx, lotId)
  if (!plan || !draw || !bounds) throw new Refusal('conflict', 'decision/no-verdict', { lot: lotId })
  const { size: announcedSize, cartons, cordsInCarton, productionMark, purchaseOrder } = announced
  const { id, size, cords, verdict, progress, drawIntegrity, bothAnswers } = record
  const recountedSize = cords === size ? undefined : cords
  const packed = { announcedSize, size, recountedSize, cartons, cordsInCarton, productionMark, purchaseOrder }
  const { frozen, tooManyAsSaid, ...frozenTerms } = terms
  const { count, sha256, nonconforming, recorders } = await digestOf(
    tx,
    { lotId, lotVersion, lastPick: undefined },
    columns,
  )
  const named = { supplier: supplier.name, item: item.name, lengthMetres: item.lengthMetres }
  return {
    version: VERSION,
    method,
    lot: { id, ...named, ...packed, ...beforeOf(links) },
    terms: frozenTerms,
    plan: { ...plan, stages: [...plan.stages] },
    draw,
    counts: progress,
    condition: drawIntegrity,
    verdict,
    proof: bounds,
    ...cordsNotHad(record.notHad),
    bothAnswers,
    people: await tx
      .select({ id: people.id, name: people.name })
      .from(people)
      .where(inArray(people.id, recorders))
      .orderBy(people.id),
    nonconforming,
    rows: { lotVersion, columns: [...columns], count, sha256 },
  }
}

function cordsNotHad({ undecided, rulings, recounts }: NotHad): { notHad?: Omit<NotHad, 'replaced'> } {
  return undecided.length + rulings.length + recounts.length > 0 ? { notHad: { undecided, rulings, recounts } } : {}
}

function beforeOf({ former }: LotLinks): Partial<EvidenceDocument['lot']> {
  if (!former) return {}
  if (former.kind === 'replacement') return { replacementOf: former.lotId }
  return { resubmissionOf: former.lotId, declaredSorting: former.sorting }
}
