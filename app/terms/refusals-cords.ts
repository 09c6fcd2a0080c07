// Refusals about the cords of a lot: what was drawn and what was recorded of it.

import type { Parameter } from './cord.ts'

type None = Record<never, never>
type OfCord = { position: number }

export type CordRefusals = EntryRefusals & {
  'cord/unknown': OfCord & { lot: number }
  'cord/not-drawn': OfCord
  'cord/recorded-before': OfCord & { recordedBy: string }
  'cord/later-stage': OfCord
  'cord/after-verdict': OfCord
  'correction/reason': None
  'correction/no-entry': OfCord
  'correction/corrected-since': OfCord
  'correction/closed': OfCord
  'correction/ruled': OfCord
  'ruling/reason': None
  'ruling/not-needed': OfCord
  'ruling/corrected-since': OfCord
  'ruling/own-report': OfCord & { name: string }
  'ruling/none-left': None
  'recount/reason': None
  'recount/size': { least: number; most: number }
  'recount/plan-needs-more': { needed: number }
}

type EntryRefusals = {
  'entry/note': None
  'entry/kind': None
  'entry/mark': None
  'reading/missing': { parameter: Parameter }
  'reading/no-number': { parameter: Parameter }
  'reading/out-of-range': { parameter: Parameter }
  'reading/failing-zero': None
  'reading/nothing-typed': None
  'reading/typed-no-number': None
  'reading/no-side': None
  'reading/contradiction': None
}
