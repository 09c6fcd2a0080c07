// The last step: the manager's decision, the one that closes a screening, the balance, or the withdrawal.

import type { LotFacts } from '../../../app/lots/record/lot.ts'
import type { DecisionFacts } from '../../../app/lots/record/steps.ts'
import { counted, day, moment, whole } from '../../figures.ts'
import { Fact, Facts } from '../../form.tsx'
import { outcomeWords } from '../../words/lots.ts'
import { openAfterVerdict, stopCosts } from '../first-fetch.tsx'
import { AnnounceAgain, LaterLots } from '../former.tsx'
import { mayDo } from '../may.ts'
import type { LotRecordProps } from './step.tsx'
import { RecordStep } from './step.tsx'

export function Decided({ lot, roles }: LotRecordProps) {
  const { decision, closing, withdrawal, balance, state } = lot
  const deciding = lot.next?.act === 'decide' || lot.next?.act === 'close'
  return (
    <RecordStep title="Decided" signed={closing ?? decision ?? withdrawal} open={deciding}>
      {decision && <Decision decision={decision} lot={lot} evidence={`/lots/${lot.id}/evidence`} />}
      {lot.prediction && <Predicted prediction={lot.prediction} />}
      {closing && <Decision decision={closing} lot={lot} evidence={`/lots/${lot.id}/evidence/screening`} />}
      {balance && <BalanceLine balance={balance} />}
      {balance && state !== 'returned' && balance.sentBack > 0 && (
        <p class="screen-only">
          <a href={`/lots/${lot.id}/taken-out`}>The cords removed and sent back, by carton and place</a>
        </p>
      )}
      <Documents lot={lot} />
      <LaterLots later={lot.links.later} />
      {roles.includes('officer') && <AnnounceAgain lotId={lot.id} again={lot.links.again} />}
      {withdrawal && (
        <p>
          <b>Withdrawn.</b> {withdrawal.reason}
        </p>
      )}
      {mayDo('accept', { lot, roles }) && <StopHere lot={lot} />}
      {mayDo('withdraw', { lot, roles }) && (
        <p class="screen-only">
          <a href={`/lots/${lot.id}/withdrawal`}>Withdraw this lot</a>
        </p>
      )}
    </RecordStep>
  )
}

/** The printed pages that the decision makes. */
function Documents({ lot: { id, decision, balance } }: { lot: LotFacts }) {
  if (!decision) return null
  return (
    <p class="screen-only">
      {balance && (
        <>
          <a href={`/lots/${id}/note`}>Note for the cords</a>
          {decision.outcome !== 'accepted' && ' · '}
        </>
      )}
      {decision.outcome !== 'accepted' && <a href={`/lots/${id}/notice`}>Notice to the supplier</a>}
    </p>
  )
}

/** The plan has its verdict and the first fetch goes on: the manager may end it, and is told what that costs. */
function StopHere({ lot }: { lot: LotFacts }) {
  const open = openAfterVerdict(lot)
  if (!open) return null
  return (
    <>
      <p>{stopCosts(open)}</p>
      <p class="actions">
        <a class="button plain" href={`/lots/${lot.id}/decision`}>
          Stop here and decide on this lot
        </a>
      </p>
    </>
  )
}

function Decision({ decision, lot, evidence }: { decision: DecisionFacts; lot: LotFacts; evidence: string }) {
  const { outcome, verdict, reason, recorded, found, upperInLot, dutiesSeparated, concession } = decision
  return (
    <section class="keep">
      <p>
        <b>{outcomeWords[outcome]}.</b> Signed by {decision.by}, {moment(decision.at)}.
        {verdict && ` The plan’s verdict: ${verdict}.`} {reason && <>Reason: {reason}</>}
      </p>
      <Facts>
        <Fact name="Tested when signed, nonconforming">
          {whole(recorded)}, {whole(found)}
        </Fact>
        {verdict && (
          <Fact name="Nonconforming in the lot, at most">
            {whole(upperInLot)} of {whole(lot.size)} <small>95 % confidence, exact</small>
          </Fact>
        )}
        {concession && (
          <>
            <Fact name="Who bears the risk and agreed">{concession.riskBearer}</Fact>
            <Fact name="For which use">{concession.use}</Fact>
            <Fact name="How many cords, until when">
              {counted(concession.cords, 'cord')}, until {day(concession.until)}
            </Fact>
          </>
        )}
      </Facts>
      <p class="screen-only">
        <a href={evidence}>Evidence at signing</a>
      </p>
      {!dutiesSeparated && <p>Who records and who decides were not kept apart: the firm has switched that rule off.</p>}
    </section>
  )
}

/** After a screening: the sample held against what the rest showed, so that one can judge what a sample is worth. */
function Predicted({ prediction }: { prediction: NonNullable<LotFacts['prediction']> }) {
  const { recorded, found, remainder, lower, upper, observed, covered } = prediction
  return (
    <p>
      <b>Predicted and found.</b> From {whole(found)} nonconforming of {counted(recorded, 'cord')} tested,{' '}
      {whole(lower)} to {whole(upper)} of the other {whole(remainder)} were predicted (90 % interval, exact).{' '}
      {whole(observed)} were found: {covered ? 'inside' : 'outside, as expected in up to 10 of 100 lots'}.{' '}
      <a href="/lots/calibration">Over all lots</a>
    </p>
  )
}

function BalanceLine({ balance }: { balance: NonNullable<LotFacts['balance']> }) {
  const { received, kept, sentBack, missing } = balance
  return (
    <p class="balance">
      {whole(received)} received = {whole(kept)} kept + {whole(sentBack)} sent back + {whole(missing)} missing
    </p>
  )
}
