// How the rule of an announced lot is said, what it makes of a count, and why its plan waits.
import type { PlanRule, RuledPlan } from '../../app/lots/rules/plan-rule.ts'
import type { RuleWait } from '../../app/terms/lot.ts'
import { frequency, whole } from '../figures.ts'

export function ruleWords(rule: PlanRule): string {
  switch (rule.kind) {
    case 'zero-acceptance':
      return 'None allowed, as many tested as the item’s demand needs'
    case 'every-cord':
      return 'Every cord'
    case 'single':
      return `One sample, both risks limited, a lot with only ${whole(rule.good)} rejected at most ${frequency(rule.goodRisk)} times`
    case 'contract':
      return `The plan ${whole(rule.sampleSize)}/${whole(rule.acceptanceNumber)}`
  }
}

/** Test 233 of 480, none allowed. */
export function ruledPlanWords({ kind, sampleSize, acceptanceNumber }: RuledPlan, size: number): string {
  if (kind === 'every-cord') return `Test all ${whole(size)}; conforming cords are kept, the others go back.`
  const allowed = acceptanceNumber === 0 ? 'none allowed' : `at most ${whole(acceptanceNumber)} allowed`
  return `Test ${whole(sampleSize)} of ${whole(size)}, ${allowed}.`
}

export const waitWords: Record<RuleWait, string> = {
  count: 'The count differs from the announced number by more than the item allows.',
  marks: 'It is not confirmed that every carton carries the announced production mark.',
  item: 'The item was changed, or another one named, since the rule was chosen.',
  numbers: 'The rule has no plan for the number counted.',
  weaker: 'For the number counted the plan is weaker than the item demands, and no reason stands with the rule.',
  discontinued: 'The series is discontinued: no lot is taken until the supplier has acted.',
}
