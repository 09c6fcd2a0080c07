// Freezes a way from the advice's table.
import type { AssessedWay } from '../../app/advice/assess.ts'
import type { LotFacts } from '../../app/lots/show.ts'
import { Version } from '../form.tsx'
import { wayNames } from './words.ts'

/** The button of one row, where the way is a plan. */
export function FreezeWay({ way, lot }: { way: AssessedWay; lot: LotFacts }) {
  const [stage] = way.plan.stages
  if (!stage) return <small>no plan</small>
  return (
    <form method="post" action={`/lots/${lot.id}/plan`}>
      <Version value={lot.version} />
      <input type="hidden" name="kind" value={way.kind === 'standard' ? 'contract' : way.kind} />
      <input type="hidden" name="sampleSize" value={stage.sampleSize} />
      <input type="hidden" name="acceptanceNumber" value={stage.acceptanceNumber} />
      <button type="submit" class="plain">
        Freeze <span class="hidden">the plan: {wayNames[way.kind]}</span>
      </button>
    </form>
  )
}
