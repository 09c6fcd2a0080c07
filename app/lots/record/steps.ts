// The steps of a lot's record, each from its row: who, when, what.
import { type Column, type SQL, sql } from 'drizzle-orm'
import type { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { people } from '../../../db/schema/people.ts'
import type { items } from '../../../db/schema/register.ts'
import type { draws } from '../../../db/schema/results.ts'
import { type Clause, type ClauseColumns, clauseIn, clauseOfLot } from '../../kit/clause.ts'
import type { AfterRejection } from '../../statistics/economics/costs.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import type { DecisionRule, UndecidedRule } from '../../terms/item.ts'
import type { Disposition, PlanKind, Verdict } from '../../terms/lot.ts'
import { type DemandedLot, demandOf } from '../rules/demand.ts'

type Signed = { by: string; at: Date }

/** The terms that judge the lot: the item's present ones until the plan is frozen, the frozen ones from then on. */
export type LotTerms = {
  frozen: boolean
  categoryClaimed: string
  cordLimit: string
  marginalPolicy: DecisionRule
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
  /** what becomes of a lot that the plan rejects */
  afterRejection: AfterRejection
  /** of the contract: the order's, or else the item's */
  clause: Clause | undefined
  /** what a drawn cord counts as that is gone or spoiled here */
  undecidedCounts: UndecidedRule
}

export type Announcement = Signed & {
  size: number
  cartons: number
  cordsInCarton: number
  productionMark: string
  purchaseOrder: string
  isolated: boolean
  /** of this order, where it has one of its own */
  clause: Clause | undefined
}
/** difference: counted less announced */
export type Receipt = Signed & { size: number; difference: number; note: string }
/** sampleSize and acceptanceNumber are those of the last stage */
export type PlanFacts = Signed & {
  kind: PlanKind
  sampleSize: number
  acceptanceNumber: number
  stages: readonly Stage[]
  /** cords of a group, where the plan goes by groups */
  groupSize?: number
  /** why a plan was taken that lets more through than the item demands; undefined where it does not */
  weakerReason: string | undefined
  /** the contract's clause is the reason, with or without words beside it */
  weakerByClause: boolean
  /** who chose the rule where the plan froze with the receipt; `by` is then who confirmed it */
  chosenBy?: string
}
export type DrawFacts = Signed & { seed: string; method: string; standIns: number }

export type ConcessionTerms = { riskBearer: string; use: string; cords: number; until: string }

export type DecisionFacts = Signed & {
  outcome: Disposition
  /** undefined for the closing decision after a screening: there the plan has no say */
  verdict: Verdict | undefined
  reason: string
  recorded: number
  found: number
  upperInLot: number
  /** false in a firm of one person, where who recorded may decide */
  dutiesSeparated: boolean
  concession: ConcessionTerms | undefined
}

export type Withdrawal = Signed & { reason: string }

type Lot = typeof lots.$inferSelect
type Plan = typeof plans.$inferSelect
type Draw = typeof draws.$inferSelect
type Decision = Omit<typeof decisions.$inferSelect, 'evidence'>
type Item = typeof items.$inferSelect

/** Name of a person by number. */
export type Names = (personId: number) => string

/** What each column that names a person is read with: the name itself. */
export function personNameOf(person: Column): SQL<string | null> {
  return sql<string | null>`(select ${people.name} from ${people} where ${people.id} = ${person})`
}

/** Names of everybody who acted, from the numbers and names that stand beside each other in these pairs. */
export function namesIn(pairs: (readonly [number | null | undefined, string | null | undefined])[]): Names {
  const names = new Map(pairs)
  return (personId) => names.get(personId) ?? `person ${personId}`
}

export function announcementOf(lot: Lot, name: Names): Announcement {
  const { announcedSize: size, cartons, cordsInCarton, productionMark, purchaseOrder, isolated } = lot
  const clause = clauseIn(lot)
  const said = { size, cartons, cordsInCarton, productionMark, purchaseOrder, isolated, clause }
  return { ...said, by: name(lot.announcedBy), at: lot.announcedAt }
}

export function receiptOf(lot: Lot, name: Names): Receipt | undefined {
  const { size, receivedBy, receivedAt, announcedSize, receiptNote } = lot
  if (size === null || receivedBy === null || receivedAt === null) return undefined
  return { size, difference: size - announcedSize, note: receiptNote ?? '', by: name(receivedBy), at: receivedAt }
}

export function planFactsOf(plan: Plan, name: Names): PlanFacts {
  const { kind, sampleSize, acceptanceNumber, stages, weakerByClause, chosenBy, frozenBy, frozenAt } = plan
  return {
    kind,
    sampleSize,
    acceptanceNumber,
    stages,
    weakerReason: plan.weakerReason ?? undefined,
    weakerByClause,
    ...(plan.groupSize === null ? {} : { groupSize: plan.groupSize }),
    ...(chosenBy === null ? {} : { chosenBy: name(chosenBy) }),
    by: name(frozenBy),
    at: frozenAt,
  }
}

export function drawOf({ seed, method, drawnBy, drawnAt }: Draw, standIns: number, name: Names): DrawFacts {
  return { seed, method, standIns, by: name(drawnBy), at: drawnAt }
}

export function withdrawalOf(lot: Lot, name: Names): Withdrawal | undefined {
  const { withdrawnBy, withdrawnAt, withdrawalReason } = lot
  if (withdrawnBy === null || withdrawnAt === null || withdrawalReason === null) return undefined
  return { reason: withdrawalReason, by: name(withdrawnBy), at: withdrawnAt }
}

export function decisionOf(decision: Decision, name: Names): DecisionFacts {
  const { outcome, verdict, reason, recorded, found, upperBoundInLot, dutiesSeparated, decidedBy, decidedAt } = decision
  return {
    outcome,
    verdict: verdict ?? undefined,
    reason,
    recorded,
    found,
    upperInLot: upperBoundInLot,
    dutiesSeparated,
    concession: concessionOf(decision),
    by: name(decidedBy),
    at: decidedAt,
  }
}

function concessionOf({ riskBearer, concessionUse, concessionCords, concessionUntil }: Decision) {
  if (riskBearer === null || concessionUse === null || concessionCords === null || concessionUntil === null)
    return undefined
  return { riskBearer, use: concessionUse, cords: concessionCords, until: concessionUntil }
}

/** The frozen terms, or before the plan is frozen those of the item as it now is. */
export function termsOf(item: Item, plan: Plan | undefined, lot: DemandedLot & ClauseColumns): LotTerms {
  const { categoryClaimed, cordLimit, marginalPolicy, crosstalkAccuracy, returnLossAccuracy } = plan ?? item
  const { costTestCents, costEscapeCents, costReturnCents, afterRejection, undecidedCounts } = plan ?? item
  const { tooMany, catchOf100 } = plan ?? demandOf(item, lot)
  return {
    frozen: plan !== undefined,
    categoryClaimed,
    cordLimit,
    marginalPolicy,
    crosstalkAccuracy,
    returnLossAccuracy,
    tooMany,
    tooManyAsSaid: item.tooMany,
    catchOf100,
    costTestCents,
    costEscapeCents,
    costReturnCents,
    afterRejection,
    clause: clauseIn(plan ?? clauseOfLot(lot, item)),
    undecidedCounts,
  }
}
