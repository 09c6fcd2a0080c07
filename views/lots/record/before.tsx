// The steps before any cord is drawn: announced, received, planned.

import type { LotFacts } from '../../../app/lots/record/lot.ts'
import { ClauseFact, weakerSentence } from '../../contract-clause.tsx'
import { counted, moment, whole } from '../../figures.ts'
import { Fact, Facts } from '../../form.tsx'
import { AccuracyFact, CostsFact, policyWords } from '../../items/terms.tsx'
import { kindWords } from '../../words/plans.ts'
import { FrozenStandardFact } from '../first-fetch.tsx'
import { FormerFacts } from '../former.tsx'
import { mayDo } from '../may.ts'
import { ruleWords, waitWords } from '../rule.ts'
import { StagesTable } from '../stages.tsx'
import { planSentence } from '../words.ts'
import type { LotRecordProps } from './step.tsx'
import { RecordStep } from './step.tsx'

export function Announced({ lot, roles }: LotRecordProps) {
  const { announced, item } = lot
  return (
    <RecordStep title="Announced" signed={announced}>
      <p>
        {counted(announced.size, 'cord')} in {counted(announced.cartons, 'carton')} of {whole(announced.cordsInCarton)}
        {announced.cartons > 1 && ' (the last may hold fewer)'}, production mark {announced.productionMark},{' '}
        {announced.purchaseOrder}, item <a href={`/items/${item.id}`}>{item.name}</a>
      </p>
      {(!lot.terms.frozen || lot.rule || lot.links.former || announced.isolated) && (
        <Facts>
          {!lot.terms.frozen && <ClauseFact clause={lot.terms.clause} />}
          {lot.rule && (
            <Fact name="Rule of the plan">
              {ruleWords(lot.rule.rule)}, chosen by {lot.rule.by}, {moment(lot.rule.at)}
            </Fact>
          )}
          <FormerFacts former={lot.links.former} />
          {announced.isolated && <Fact name="Series">none: the lot stands alone</Fact>}
        </Facts>
      )}
      {mayDo('correct', { lot, roles }) && (
        <p class="screen-only">
          <a href={`/lots/${lot.id}/correction`}>Correct what was announced</a>
        </p>
      )}
    </RecordStep>
  )
}

export function Received({ lot, roles }: LotRecordProps) {
  const { received } = lot
  const mayReceive = mayDo('receive', { lot, roles })
  return (
    <RecordStep title="Received" signed={received} open={lot.next?.act === 'receive'}>
      {received && (
        <p>
          {whole(received.size)} counted{differenceWords(received.difference, lot.announced.size)}
          {received.note && <> Remarks: {received.note}</>}
        </p>
      )}
      {mayReceive && received && (
        <p class="screen-only">
          <a href={`/lots/${lot.id}/receipt`}>Count again</a>
        </p>
      )}
    </RecordStep>
  )
}

function differenceWords(difference: number, announced: number): string {
  if (difference === 0) return ', as announced.'
  return `, ${whole(Math.abs(difference))} ${difference < 0 ? 'short of' : 'more than'} the ${whole(announced)} announced.`
}

export function Planned({ lot, currency }: LotRecordProps) {
  const { plan } = lot
  return (
    <RecordStep title="Planned" signed={plan} open={lot.next?.act === 'plan'}>
      {plan && <FrozenPlan lot={lot} plan={plan} currency={currency} />}
      {lot.state === 'announced' && (
        <p>
          <a href={`/lots/${lot.id}/plan`}>How many to test of the number announced</a>
        </p>
      )}
      {lot.state === 'received' && lot.rule?.waits !== undefined && (
        <p class="caution">The plan waits for the officer. {waitWords[lot.rule.waits]}</p>
      )}
    </RecordStep>
  )
}

type FrozenPlanProps = { lot: LotFacts; plan: NonNullable<LotFacts['plan']>; currency: string }

function FrozenPlan({ lot, plan, currency }: FrozenPlanProps) {
  const weaker = weakerSentence({ ...plan, clause: lot.terms.clause })
  return (
    <>
      <p>
        <b>{planSentence(plan)}</b> ({kindWords[plan.kind]})
      </p>
      {plan.chosenBy !== undefined && (
        <p>
          By the rule that {plan.chosenBy} chose at announcement; {plan.by} confirmed count, cartons and production
          mark.
        </p>
      )}
      {weaker !== undefined && <p>{weaker}</p>}
      {plan.stages.length > 1 && (
        <details>
          <summary>The numbers, stage by stage</summary>
          <StagesTable stages={plan.stages} />
        </details>
      )}
      <FrozenTerms lot={lot} currency={currency} />
    </>
  )
}

function FrozenTerms({ lot: { terms, size, firstFetch }, currency }: { lot: LotFacts; currency: string }) {
  return (
    <details>
      <summary>Terms</summary>
      <Facts>
        <Fact name="Lot size">{whole(size)}</Fact>
        <Fact name="Too many">
          {counted(terms.tooMany, 'cord')}, to be caught {terms.catchOf100} times in 100
        </Fact>
        <Fact name="Cord limit">
          {terms.cordLimit} <small>for cords claimed to be {terms.categoryClaimed}</small>
        </Fact>
        <AccuracyFact crosstalk={terms.crosstalkAccuracy} returnLoss={terms.returnLossAccuracy} />
        <Fact name="Marginal cords">{policyWords[terms.marginalPolicy].long}</Fact>
        <CostsFact costs={terms} currency={currency} />
        <ClauseFact clause={terms.clause} />
        <FrozenStandardFact fetch={firstFetch} />
      </Facts>
    </details>
  )
}
