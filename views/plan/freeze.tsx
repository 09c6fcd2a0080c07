// Freezes a way of a lot's plan, or chooses it as the rule of an announced lot; a weaker one with its reason.
import type { Advice } from '../../app/advice/advise.ts'
import type { AlternativeKind } from '../../app/advice/alternatives.ts'
import type { AssessedAlternative } from '../../app/advice/evaluate.ts'
import { lengths } from '../../app/kit/limits.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { type RuleKind, ruleKinds } from '../../app/terms/lot.ts'
import { TextArea, Version } from '../form.tsx'

/** What the reader may do now: freeze a plan, choose the rule by which it freezes with the receipt, or neither. */
export type Choosing = 'plan' | 'rule' | 'nothing'

/** Why a way cannot be chosen now; undefined where it can. */
export function hindranceOf(
  way: Pick<AssessedAlternative, 'kind' | 'plan'>,
  { critical }: Pick<Advice, 'critical'>,
  choosing: Exclude<Choosing, 'nothing'>,
): string | undefined {
  if (critical && way.kind !== 'every-cord') return 'the item is critical: every cord is tested'
  if (way.plan.stages.length === 0) return 'this is no plan'
  if (choosing === 'rule' && !isRule(way.kind)) return 'it can be chosen once the lot is counted'
  return undefined
}

type Props = {
  way: AssessedAlternative
  advice: Advice
  choosing: Exclude<Choosing, 'nothing'>
  /** what the reader asked, as the address holds it */
  asked: string
  problems?: Problems | undefined
  typed?: Typed | undefined
}

/** Carries the chosen way out; a weaker one than the item asks with its reason. */
export function FreezeForm({ way, advice, choosing, asked, problems, typed }: Props) {
  const [act, address] = choosing === 'plan' ? ['Freeze this plan', 'plan'] : ['Choose this rule', 'rule']
  return (
    <form method="post" action={`/lots/${advice.lot.id}/${address}?${asked}`}>
      <Version value={advice.lot.version} />
      <input type="hidden" name="kind" value={way.kind} />
      {choosing === 'plan' ? <PlanNumbers way={way} /> : <RuleNumbers way={way} advice={advice} />}
      {!way.protects && <WhyWeaker advice={advice} problem={problems?.reason} typed={typed} />}
      <button type="submit">{act}</button>
    </form>
  )
}

type WhyProps = Pick<Props, 'advice' | 'typed'> & { problem: string | undefined }

/** By the contract's clause, where there is one, in words, or both. */
function WhyWeaker({ advice, problem, typed }: WhyProps) {
  const { clause } = advice.lot.terms
  return (
    <>
      {clause && (
        <label class="option">
          <input type="checkbox" name="byClause" value="yes" checked={typed?.byClause === 'yes'} />
          <span>Because of clause {clause.number} of the contract</span>
        </label>
      )}
      <TextArea
        name="reason"
        label={clause ? 'Or why else, in your words' : 'Why a weaker plan'}
        value={typed?.reason}
        problem={problem}
        rows={3}
        maxlength={lengths.reason}
      />
    </>
  )
}

/** Ways that need nothing of the supplier's past. */
function isRule(kind: AlternativeKind): kind is RuleKind {
  return ruleKinds.some((rule) => rule === kind)
}

/** A plan that may have several stages is sent with all of them: 74/1/4 155/3/4. */
function PlanNumbers({ way: { kind, plan } }: { way: AssessedAlternative }) {
  if (kind === 'double' || kind === 'groups' || kind === 'standard') {
    const stages = plan.stages.map((stage) => `${stage.sampleSize}/${stage.acceptanceNumber}/${stage.rejectionNumber}`)
    return <input type="hidden" name="stages" value={stages.join(' ')} />
  }
  return <OneStage way={{ plan }} />
}

/** A rule is sent with what the buyer says; the numbers follow from the count, but where the plan has its own. */
function RuleNumbers({ way, advice: { requirements } }: { way: AssessedAlternative; advice: Advice }) {
  if (way.kind === 'contract') return <OneStage way={way} />
  if (way.kind !== 'single') return null
  return (
    <>
      <input type="hidden" name="good" value={requirements.good} />
      <input type="hidden" name="goodRisk" value={requirements.goodRisk} />
    </>
  )
}

function OneStage({ way }: { way: Pick<AssessedAlternative, 'plan'> }) {
  const [stage] = way.plan.stages
  return (
    <>
      <input type="hidden" name="sampleSize" value={stage?.sampleSize} />
      <input type="hidden" name="acceptanceNumber" value={stage?.acceptanceNumber} />
    </>
  )
}
