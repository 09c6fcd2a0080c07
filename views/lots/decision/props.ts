// What the manager's page of a decision is told.
import type { CordFacts } from '../../../app/lots/cords/walk.ts'
import type { Consequences } from '../../../app/lots/decision/consequences.ts'
import type { ShownMargins } from '../../../app/lots/evidence/margins.ts'
import type { LotFacts } from '../../../app/lots/show.ts'
import type { Standing } from '../../../app/suppliers/standing.ts'
import type { Problems, Typed } from '../../form.tsx'

export type DecisionProps = {
  lot: LotFacts
  margins: ShownMargins
  consequences: Consequences
  standing: Standing
  /** cords found not conforming, as many as fit on a page */
  takenOut: { cords: CordFacts[]; next: number | undefined }
  currency: string
  problems?: Problems | undefined
  typed?: Typed | undefined
}
