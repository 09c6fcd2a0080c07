// The closed sets of words of a lot, as the database's enumerations.
import { pgEnum } from 'drizzle-orm/pg-core'
import {
  decisionPoints as decidedAfterWords,
  dispositions,
  lotStates,
  planKinds,
  verdicts,
} from '../../app/terms/lot.ts'
import { severities, tableStandings } from '../../app/terms/series.ts'

export const lotState = pgEnum('lot_state', lotStates)
export const planKind = pgEnum('plan_kind', planKinds)
export const verdict = pgEnum('verdict', verdicts)
export const outcome = pgEnum('outcome', dispositions)
export const severity = pgEnum('severity', severities)
export const tableStanding = pgEnum('table_standing', tableStandings)
export const decidedAfter = pgEnum('decided_after', decidedAfterWords)
