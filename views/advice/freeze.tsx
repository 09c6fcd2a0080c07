// Freezes a way from the advice's table.
import type { EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { Version } from '../form.tsx'
import { wayWords } from '../words/plans.ts'

type Props = { way: EvaluatedAlternative; lot: LotRecord; critical: boolean }

/** The button of one row, where the way is a plan that may be frozen. */
export function FreezeWay({ way, lot, critical }: Props) {
  if (critical && way.kind !== 'every-cord') return <small>the item is critical</small>
  if (way.plan.stages.length === 0) return <small>no plan</small>
  return (
    <form method="post" action={`/lots/${lot.id}/plan`}>
      <Version value={lot.version} />
      <input type="hidden" name="kind" value={way.kind} />
      <PlanNumbers way={way} />
      <button type="submit" class="plain">
        Freeze <span class="hidden">the plan: {wayWords[way.kind]}</span>
      </button>
    </form>
  )
}

/** A plan that may have several stages is sent with all of them: 74/1/4 155/3/4. */
function PlanNumbers({ way: { kind, plan } }: { way: EvaluatedAlternative }) {
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
