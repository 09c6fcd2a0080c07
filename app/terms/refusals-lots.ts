// Refusals about one lot: its announcement, its plan, where it stands and what is decided.
import type { LotAct, LotState, Verdict } from './lot.ts'

type None = Record<never, never>
type OfLot = { lot: number }

export type LotRefusals = StateRefusals & PlanRefusals & DecisionRefusals

type StateRefusals = {
  'lot/missing': OfLot
  'lot/state': OfLot & { state: LotState; act: LotAct }
  'lot/changed-since': OfLot
  'lot/note-length': None
  'lot/withdrawal-reason': None
  'lot/not-drawn': OfLot
  'lot/not-to-plan': OfLot
  'lot/not-to-decide': OfLot
  'lot/not-to-close': OfLot
}

type PlanRefusals = {
  'plan/missing': OfLot
  'plan/critical': None
  'plan/sample-size': { lotSize: number }
  'plan/every-cord': { lotSize: number }
  'plan/acceptance-number': { most: number }
  'plan/zero-acceptance': None
}

type DecisionRefusals = {
  'decision/missing': OfLot
  'decision/no-verdict': OfLot
  'decision/recorded-so-far': OfLot & { recorded: number; sampleSize: number | undefined; found: number }
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
