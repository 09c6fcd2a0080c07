// Refusals about one lot: its announcement, its plan, where it stands and what is decided.
import type { LotAct, LotState, StagedKind, Verdict } from './lot.ts'

type None = Record<never, never>
type OfLot = { lot: number }

export type LotRefusals = StateRefusals & FormerRefusals & PackingRefusals & PlanRefusals & DecisionRefusals

type StateRefusals = {
  'lot/missing': OfLot
  'lot/state': OfLot & { state: LotState; act: LotAct }
  'lot/changed-since': OfLot
  'lot/note-length': None
  'lot/withdrawal-reason': None
  'lot/not-drawn': OfLot
  'lot/not-to-decide': OfLot
  'lot/not-to-close': OfLot
  'document/not-closed': OfLot
  'document/no-notice': OfLot
}

type FormerRefusals = {
  'former/missing': OfLot
  'former/other-series': OfLot
  'former/not-sent-back': OfLot
  'former/resubmitted-before': OfLot
  /** size: cords that the lot had */
  'former/larger': OfLot & { size: number }
  'former/sorting': None
}

type PackingRefusals = {
  'lot/supplier-unknown': None
  'lot/item-unknown': None
  'lot/size': None
  'lot/cartons': None
  'lot/cords-in-carton': None
  'lot/packing': { size: number; cordsInCarton: number; needed: number; cartons: number }
  'lot/production-mark': None
  'lot/purchase-order': None
}

type PlanRefusals = {
  'plan/missing': OfLot
  'plan/critical': None
  'plan/weaker': None
  'plan/no-clause': None
  'rule/no-plan': { lotSize: number }
  'receipt/shown-otherwise': OfLot
  'plan/reason-length': None
  'plan/sample-size': { lotSize: number }
  'plan/every-cord': { lotSize: number }
  'plan/acceptance-number': { most: number }
  'plan/zero-acceptance': None
  'stages/of-kind': { kind: StagedKind }
  'stages/cord-by-cord': None
  'stages/groups': { groupSize: number }
  'stages/no-growth': None
  'stages/accepts-fewer': None
  'stages/rejects-from-fewer': None
  'stages/last-number': { most: number }
  /** why: the engine's own words for the number that is out of range */
  'stages/no-plan': { lotSize: number; why: string }
}

type DecisionRefusals = {
  'decision/missing': OfLot
  'decision/no-verdict': OfLot
  'decision/recorded-so-far': OfLot & { recorded: number; sampleSize: number | undefined; found: number }
  'decision/undecided': { undecided: number }
  'decision/sample-incomplete': { recorded: number; of: number }
  'decision/screening-incomplete': { recorded: number; of: number | null }
  'decision/against-the-plan': { verdict: Verdict }
  'decision/nothing-to-screen': None
  'decision/own-results': OfLot & { name: string }
  'decision/reason-length': None
  'decision/later-evidence': OfLot
  'concession/risk-bearer': None
  'concession/use': None
  'concession/cords': None
  'concession/more-than-lot': { lotSize: number }
  'concession/until': None
}
