// One lot with everything that its page tells.

import type { MarginalPolicy } from '../items/judge.ts'
import type { Role } from '../people/person.ts'
import type { Proof } from './decision/proof.ts'
import type { Turn } from './turn.ts'

export type LotState =
  | 'announced'
  | 'received'
  | 'planned'
  | 'drawn'
  | 'accepted'
  | 'conceded'
  | 'screening'
  | 'screened'
  | 'sorted'
  | 'returned'
  | 'withdrawn'
export type PlanKind = 'zero-acceptance' | 'single' | 'percentage' | 'contract' | 'every-cord'
export type Verdict = 'accept' | 'reject'
export type Outcome = 'accepted' | 'conceded' | 'screened' | 'sorted' | 'returned'

type Signed = { by: string; at: Date }

/** The terms that judge the lot: the item's present ones until the plan is frozen, the frozen ones from then on. */
export type LotTerms = {
  frozen: boolean
  categoryClaimed: string
  cordLimit: string
  marginalPolicy: MarginalPolicy
  crosstalkAccuracy: string
  returnLossAccuracy: string
  /** whole cords of this lot, at its counted or else announced size */
  tooMany: number
  /** as the item says it now: 5 or 1% */
  tooManyAsSaid: string
  catchOf100: string
  costTestCents: number
  costEscapeCents: number
  costReturnCents: number
}

export type Announcement = Signed & {
  size: number
  cartons: number
  cordsInCarton: number
  productionMark: string
  purchaseOrder: string
}
/** difference: counted less announced */
export type Receipt = Signed & { size: number; difference: number; note: string }
export type PlanFacts = Signed & { kind: PlanKind; sampleSize: number; acceptanceNumber: number }
export type DrawFacts = Signed & { seed: string; method: string; standIns: number }

export type Progress = {
  /** cords that count towards the plan's sample */
  sampleRecorded: number
  sampleNonconforming: number
  /** the other cords, while a lot is screened and afterwards */
  restRecorded: number
  restNonconforming: number
  /** cords drawn and not yet recorded, in the sample or in the rest */
  toDo: number
}

/** The condition of every bound: drawn at random from the whole lot. Broken by a stand-in, or by a cord that could not be tested. */
export type Condition = { kind: 'kept' } | { kind: 'broken'; standIns: number; notTested: number }

export type Concession = { riskBearer: string; use: string; cords: number; until: string }

export type DecisionFacts = Signed & {
  outcome: Outcome
  /** undefined for the closing decision after a screening: there the plan has no say */
  verdict: Verdict | undefined
  reason: string
  recorded: number
  found: number
  upperInLot: number
  /** false in a firm of one person, where who recorded may decide */
  dutiesSeparated: boolean
  concession: Concession | undefined
}

/** received = kept + sentBack + missing */
export type Balance = { received: number; kept: number; sentBack: number; missing: number }

export type AuditLine = { id: number; at: Date; who: string; role: Role | undefined; action: string; detail: unknown }

export type LotFacts = {
  id: number
  /** sent back with every change of the lot */
  version: number
  state: LotState
  /** counted size, or the announced one before the count */
  size: number
  supplier: { id: number; name: string }
  item: { id: number; name: string; lengthMetres: string }
  terms: LotTerms
  announced: Announcement
  received: Receipt | undefined
  plan: PlanFacts | undefined
  draw: DrawFacts | undefined
  progress: Progress
  condition: Condition
  verdict: Verdict | undefined
  /** the cord with which the acceptance number was exceeded */
  rejectedSince: { position: number; carton: number; place: number; at: Date } | undefined
  /** undefined before there is a verdict */
  proof: Proof | undefined
  decision: DecisionFacts | undefined
  /** after a screening */
  closing: DecisionFacts | undefined
  withdrawal: (Signed & { reason: string }) | undefined
  /** once the lot is decided for good */
  balance: Balance | undefined
  /** whose turn it is and for what; undefined when the lot is done */
  next: Turn | undefined
  audit: AuditLine[]
}
