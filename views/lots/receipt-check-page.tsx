// Before a lot with a rule is received: the plan that freezes with it, or why it waits, to be confirmed with a second press.
import type { RuleOutcome } from '../../app/lots/acts/rule-outcome.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { counted, whole } from '../figures.ts'
import { Fact, Facts, Version } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { ruledPlanWords, ruleWords, waitWords } from './rule.ts'

type Counted = {
  version: number
  size: number
  cartons: number
  cordsInCarton: number
  note: string
  oneMark: boolean
}
type Props = Frame & { lot: LotRecord; outcome: RuleOutcome; shown: string; form: Counted }

export function ReceiptCheckPage({ viewer, firm, done, lot, outcome, shown, form }: Props) {
  const { announced, rule } = lot
  return (
    <Page title={`Receive lot ${lot.id}: check`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Receive <a href={`/lots/${lot.id}`}>lot {lot.id}</a>: check
      </h1>
      <Outcome outcome={outcome} size={form.size} />
      <Facts>
        <Fact name="Counted">
          {counted(form.size, 'cord')} in {counted(form.cartons, 'carton')}
        </Fact>
        <Fact name="Announced">{whole(announced.size)}</Fact>
        <Fact name="Production mark">
          {announced.productionMark}
          {form.oneMark ? ', on every carton' : ', not confirmed for every carton'}
        </Fact>
        {rule && (
          <Fact name="Rule">
            {ruleWords(rule.rule)}, chosen by {rule.by}
          </Fact>
        )}
      </Facts>
      <form method="post" action={`/lots/${lot.id}/receipt`}>
        <Version value={form.version} />
        {(['size', 'cartons', 'cordsInCarton', 'note'] as const).map((name) => (
          <input type="hidden" name={name} value={form[name]} />
        ))}
        {form.oneMark && <input type="hidden" name="oneMark" value="yes" />}
        <input type="hidden" name="shown" value={shown} />
        <button type="submit">{outcome.kind === 'freezes' ? 'Receive and freeze the plan' : 'Receive this lot'}</button>
      </form>
      <p>
        <a href={`/lots/${lot.id}/receipt`}>Count again</a>
      </p>
    </Page>
  )
}

function Outcome({ outcome, size }: { outcome: RuleOutcome; size: number }) {
  if (outcome.kind === 'freezes')
    return (
      <>
        <p class="answer">{ruledPlanWords(outcome.plan, size)}</p>
        <p>With the next press this plan is frozen for good, before any cord is opened.</p>
      </>
    )
  return (
    <>
      <p class="answer">The plan waits for the officer.</p>
      <p>{waitWords[outcome.because]} The count is kept with the next press.</p>
    </>
  )
}
