// What the recorded sample proves of a lot, and whether its condition was kept.

import type { DrawIntegrity as Kept } from '../../app/lots/record/integrity.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import type { LotBounds } from '../../app/lots/rules/bounds.ts'
import { confidenceOf, counted, expected, whole } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { stageWords } from './words.ts'

/** The plan's word in one sentence. */
export function verdictSentence(lot: LotRecord): string {
  const { plan, verdict, progress, rejectedSince } = lot
  if (!plan) return 'There is no plan yet.'
  if (plan.stages.length > 1) return stagedSentence(lot, plan)
  const { sampleRecorded, sampleNonconforming } = progress
  const found = `${whole(sampleNonconforming)} of ${counted(sampleRecorded, 'tested cord')} ${sampleNonconforming === 1 ? 'is' : 'are'} nonconforming`
  if (verdict === undefined)
    return `No verdict yet: ${whole(sampleRecorded)} of ${whole(plan.sampleSize)} recorded, ${whole(sampleNonconforming)} nonconforming${undecidedWords(lot)}.`
  if (plan.kind === 'every-cord') return `Every cord is tested: ${found} and not accepted with the others.`
  const allowed = `the plan allows ${plan.acceptanceNumber === 0 ? 'none' : whole(plan.acceptanceNumber)}`
  if (verdict === 'accept') return `The plan accepts this lot: ${found}, and ${allowed}.`
  return `The plan rejects this lot: ${found}, and ${allowed}.${rejectedSince ? ` It was decided at cord ${whole(rejectedSince.position)}.` : ''}`
}

function undecidedWords({ notHad: { undecided } }: LotRecord): string {
  return undecided.length === 0 ? '' : `, ${whole(undecided.length)} not decided`
}

/** The same for a plan of several stages: its word rests on the cords up to the stage that brought it. */
function stagedSentence(lot: LotRecord, plan: NonNullable<LotRecord['plan']>): string {
  const { planProgress, rejectedSince, progress } = lot
  if (!planProgress) return 'There is no plan yet.'
  const { stage, recorded, found, left, verdict } = planProgress
  const { acceptanceNumber, rejectionNumber } = plan.stages[stage - 1] ?? { acceptanceNumber: -1, rejectionNumber: 0 }
  const at = stageWords(plan, stage)
  if (verdict === undefined)
    return `No verdict yet (${at}): ${whole(recorded)} of ${whole(recorded + left)} recorded, ${whole(found)} nonconforming${undecidedWords(lot)}.`
  const failing = `${whole(found)} of ${counted(recorded, 'tested cord')} ${found === 1 ? 'is' : 'are'} nonconforming`
  const beyond = progress.sampleRecorded - recorded
  const unheard = beyond > 0 ? ` What was recorded after them (${counted(beyond, 'cord')}) has no say in it.` : ''
  if (verdict === 'accept')
    return `The plan accepts this lot (${at}): ${failing}, and at this point the plan allows ${acceptanceNumber === 0 ? 'none' : whole(acceptanceNumber)}.${unheard}`
  const since = rejectedSince ? ` It was decided at cord ${whole(rejectedSince.position)}.` : ''
  return `The plan rejects this lot (${at}): ${failing}, and at this point ${rejectionNumber === 1 ? '1 is' : `${whole(rejectionNumber)} are`} too many.${since}${unheard}`
}

/** The bounds, each with its confidence and method, and the condition under which they hold. */
export function Proven({ proof, condition }: { proof: LotBounds; condition: Kept }) {
  return (
    <>
      <Facts>
        <Fact name="Nonconforming in the whole lot, at most">
          {whole(proof.upperInLot)} of {whole(proof.lotSize)}
        </Fact>
        <Fact name="Nonconforming in the whole lot, at least">
          {whole(proof.lowerInLot)} of {whole(proof.lotSize)}
        </Fact>
        <Fact name="Nonconforming among the untested, at most">
          {whole(proof.upperInUntested)} of {whole(proof.untested)}
        </Fact>
        <Fact name="Nonconforming among the untested, expected">{expectedWords(proof)}</Fact>
      </Facts>
      <Method proof={proof} />
      <DrawKept condition={condition} />
    </>
  )
}

/** By what method the bounds are worked out, and what they suppose. */
export function Method({ proof }: { proof: LotBounds }) {
  return (
    <p>
      <small>
        One-sided bounds, each at {confidenceOf(proof.confidence)} confidence, exact for this lot by the hypergeometric
        law.
        {proof.stage !== undefined &&
          ' They belong to the plan and the stage at which it ended: a plan that may stop early must not be read as if its cords had been the only sample planned.'}
        {proof.leftOfSample > 0 &&
          ` They stand although ${counted(proof.leftOfSample, 'cord')} of the sample ${proof.leftOfSample === 1 ? 'was' : 'were'} left untested: each of these is taken as not conforming in the upper bounds, as conforming in the lower one.`}
      </small>
    </p>
  )
}

function expectedWords({ expectedInUntested, found, stage }: LotBounds): string {
  if (stage !== undefined) return 'no fair estimate: how much is tested depends on what is found'
  if (expectedInUntested === undefined) return 'no fair estimate: testing stopped at the rejection number'
  if (found === 0) return 'none expected from the sample alone; that is not proof of none'
  return `about ${expected(expectedInUntested)}, at the rate found in the sample`
}

/** What may still be among the cords nobody tested. */
export function mayBeIn({ untested, upperInUntested, confidence }: LotBounds): string {
  if (untested === 0) return 'No cord is left untested.'
  const sure = `${confidenceOf(confidence)} confidence, exact`
  if (upperInUntested === 0)
    return `None of the ${counted(untested, 'untested cord')} could be nonconforming (${sure}).`
  return `Up to ${whole(upperInUntested)} of the ${counted(untested, 'untested cord')} could be nonconforming (${sure}).`
}

/** Whether the cords tested are those drawn, and what follows where they are not. */
export function DrawKept({ condition }: { condition: Kept }) {
  if (condition.kind === 'kept')
    return (
      <p class="caution">
        All cords tested are those drawn. The numbers hold as far as the tester and the cord limit set were right.
      </p>
    )
  const { standIns, notTested } = condition
  return (
    <p class="caution">
      {standIns > 0 && (
        <>
          <b>Random draw not fully kept:</b> {counted(standIns, 'drawn cord')} replaced by a reserve of the draw. If
          cords are gone because they are bad, the true number may be higher than stated.{' '}
        </>
      )}
      {notTested > 0 && (
        <>
          <b>{counted(notTested, 'drawn cord')} could not be tested</b> and {notTested === 1 ? 'counts' : 'count'} as
          nonconforming: the upper bounds hold whatever {notTested === 1 ? 'it was' : 'they were'}, the lower one says
          too much if {notTested === 1 ? 'it' : 'one of them'} conformed.
        </>
      )}
    </p>
  )
}
