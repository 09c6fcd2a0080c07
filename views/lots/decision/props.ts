// What the manager's page of a decision is told.

import type { FinishedLot } from '../../../app/history/finished.ts'
import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { ShownMargins } from '../../../app/lots/evidence/margins.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { CordFacts } from '../../../app/lots/record/pick-list.ts'
import type { Consequences } from '../../../app/lots/rules/consequences.ts'

export type DecisionProps = {
  lot: LotRecord
  margins: ShownMargins
  consequences: Consequences
  /** of this item from this supplier, oldest first */
  finished: FinishedLot[]
  /** cords found not conforming, as many as fit on a page */
  takenOut: { cords: CordFacts[]; next: number | undefined }
  currency: string
  problems?: Problems | undefined
  typed?: Typed | undefined
}
