// Freezes a way from the table of a lot's plan; a weaker one than the item demands with its reason.
import type { AssessedAlternative } from '../../app/advice/evaluate.ts'
import { lengths } from '../../app/kit/limits.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { TextArea, Version } from '../form.tsx'
import { wayWords } from '../words/plans.ts'

type Props = {
  way: AssessedAlternative
  lot: LotRecord
  critical: boolean
  problems?: Problems | undefined
  typed?: Typed | undefined
}

/** The button of one row, where the way is a plan that may be frozen. */
export function FreezeWay({ way, lot, critical, problems, typed }: Props) {
  if (critical && way.kind !== 'every-cord') return <small>the item is critical</small>
  if (way.plan.stages.length === 0) return <small>no plan</small>
  const mine = typed?.kind === way.kind
  const form = (
    <form method="post" action={`/lots/${lot.id}/plan`}>
      <Version value={lot.version} />
      <input type="hidden" name="kind" value={way.kind} />
      <PlanNumbers way={way} />
      {!way.protects && (
        <TextArea
          id={`field-reason-${way.kind}`}
          name="reason"
          label="Why a weaker plan"
          value={mine ? typed.reason : undefined}
          problem={mine ? problems?.reason : undefined}
          rows={3}
          maxlength={lengths.reason}
        />
      )}
      <button type="submit" class="plain">
        Freeze <span class="hidden">the plan: {wayWords[way.kind]}</span>
      </button>
    </form>
  )
  if (way.protects) return form
  return (
    <details open={mine}>
      <summary>
        With a reason <span class="hidden">freeze the plan: {wayWords[way.kind]}</span>
      </summary>
      {form}
    </details>
  )
}

/** A plan that may have several stages is sent with all of them: 74/1/4 155/3/4. */
function PlanNumbers({ way: { kind, plan } }: { way: AssessedAlternative }) {
  if (kind === 'double' || kind === 'sequential' || kind === 'standard') {
    const stages = plan.stages.map((stage) => `${stage.sampleSize}/${stage.acceptanceNumber}/${stage.rejectionNumber}`)
    return <input type="hidden" name="stages" value={stages.join(' ')} />
  }
  const [stage] = plan.stages
  return (
    <>
      <input type="hidden" name="sampleSize" value={stage?.sampleSize} />
      <input type="hidden" name="acceptanceNumber" value={stage?.acceptanceNumber} />
    </>
  )
}
