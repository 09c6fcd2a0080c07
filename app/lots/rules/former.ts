// A lot that was here before: rejected, sorted and sent again, or sent in the place of one that went back. How its row has it.
import type { FormerKind } from '../../terms/lot.ts'

/** `sorting`: what the supplier declares to have sorted; nothing is resubmitted without. */
export type FormerLot =
  | { kind: Extract<FormerKind, 'resubmission'>; lotId: number; sorting: string }
  | { kind: Extract<FormerKind, 'replacement'>; lotId: number }

export type FormerColumns = {
  resubmissionOf: number | null
  declaredSorting: string | null
  replacementOf: number | null
}

export function formerColumns(former: FormerLot | undefined): FormerColumns {
  return {
    resubmissionOf: former?.kind === 'resubmission' ? former.lotId : null,
    declaredSorting: former?.kind === 'resubmission' ? former.sorting : null,
    replacementOf: former?.kind === 'replacement' ? former.lotId : null,
  }
}

/** The database keeps the row whole. */
export function formerIn({ resubmissionOf, declaredSorting, replacementOf }: FormerColumns): FormerLot | undefined {
  if (resubmissionOf !== null && declaredSorting !== null)
    return { kind: 'resubmission', lotId: resubmissionOf, sorting: declaredSorting }
  return replacementOf === null ? undefined : { kind: 'replacement', lotId: replacementOf }
}
