// Closed sets of words for a lot: where it stands, how it is tested, what the plan says and what becomes of it.

/** screening: the manager ordered the rest to be tested and it is not finished; screened: it is; sorted: then the conforming cords were kept and the others sent back. */
export const lotStates = [
  'announced',
  'received',
  'planned',
  'drawn',
  'accepted',
  'conceded',
  'screening',
  'screened',
  'sorted',
  'returned',
  'withdrawn',
] as const
export type LotState = (typeof lotStates)[number]

/** What may be done with a lot once it is announced. */
export type LotAct =
  | 'correct'
  | 'choose-rule'
  | 'receive'
  | 'withdraw'
  | 'plan'
  | 'draw'
  | 'record'
  | 'amend'
  | 'rule'
  | 'accept'
  | 'concede'
  | 'screen'
  | 'return'
  | 'sort'

/** What a lot is to one that was here before it. */
export const formerKinds = ['resubmission', 'replacement'] as const
export type FormerKind = (typeof formerKinds)[number]

/** How a lot ends that another may be, once it comes again, or may be sent in the place of: it went back, or some of its cords did. */
export const endsBefore = {
  resubmission: ['returned'],
  replacement: ['returned', 'sorted'],
} as const satisfies Record<FormerKind, readonly LotState[]>

/** Plans that look at their sample once. */
export const oneStageKinds = ['zero-acceptance', 'single', 'percentage', 'contract', 'every-cord'] as const
export type OneStageKind = (typeof oneStageKinds)[number]

/** Plans that may have several stages; sequential: a verdict after every cord, which only plans of earlier versions have. */
export const stagedKinds = ['double', 'groups', 'sequential', 'standard'] as const
export type StagedKind = (typeof stagedKinds)[number]

export const planKinds = [...oneStageKinds, ...stagedKinds] as const
export type PlanKind = (typeof planKinds)[number]

/**
 * Rules that an officer may choose at announcement: they need nothing of what is known of the supplier, so that the plan follows from the
 * number counted and the item's terms alone, and no lot decided in between can change it.
 */
export const ruleKinds = ['zero-acceptance', 'single', 'contract', 'every-cord'] as const satisfies readonly PlanKind[]
export type RuleKind = (typeof ruleKinds)[number]

/** Why a plan does not freeze by its rule: the officer looks at it again. */
export const ruleWaits = ['count', 'marks', 'item', 'numbers', 'weaker', 'discontinued'] as const
export type RuleWait = (typeof ruleWaits)[number]

/** The plan's word. */
export const verdicts = ['accept', 'reject'] as const
export type Verdict = (typeof verdicts)[number]

/** The manager's. */
export const dispositions = ['accepted', 'conceded', 'screened', 'sorted', 'returned'] as const
export type Disposition = (typeof dispositions)[number]

/** A lot is decided on after its sample, and once more after a screening. */
export const decisionPoints = ['sample', 'screening'] as const
