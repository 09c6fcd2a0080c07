// The steps in which cords are drawn and tested.

import type { LotFacts } from '../../../app/lots/record/lot.ts'
import { counted, whole } from '../../figures.ts'
import { Fact, Facts } from '../../form.tsx'
import { fetchSentence } from '../first-fetch.tsx'
import { mayDo } from '../may.ts'
import { BothAnswersFacts, NotHadList } from '../not-had.tsx'
import { mayBeIn, Proven, verdictSentence } from '../proven.tsx'
import { drawMethodWords, stageWords } from '../words.ts'
import type { LotRecordProps } from './step.tsx'
import { RecordStep } from './step.tsx'

export function Drawn({ lot }: LotRecordProps) {
  const { draw, plan } = lot
  return (
    <RecordStep title="Drawn" signed={draw} open={lot.next?.act === 'draw'}>
      {draw && (
        <>
          <p>
            {plan && counted(plan.sampleSize, 'cord')} of {whole(lot.size)} at random from a recorded seed
            {draw.standIns > 0 && `, and ${counted(draw.standIns, 'reserve')}`}.
          </p>
          <details>
            <summary>Seed and method</summary>
            <Facts>
              <Fact name="Seed">
                <code>{draw.seed}</code>
              </Fact>
              <Fact name="Method">{drawMethodWords(draw.method)}</Fact>
            </Facts>
          </details>
          <p class="screen-only">
            <a href={`/lots/${lot.id}/draw`}>Pick list</a>
          </p>
        </>
      )}
    </RecordStep>
  )
}

export function Tested({ lot, roles }: LotRecordProps) {
  const { draw, verdict, bounds, state, drawIntegrity } = lot
  const act = lot.next?.act
  return (
    <RecordStep title="Tested" done={draw !== undefined} open={act === 'test' || act === 'screen' || act === 'rule'}>
      {draw && (
        <>
          <Count lot={lot} />
          {lot.firstFetch && (
            <p>
              <b>First fetch, for the standard’s verdict:</b> {fetchSentence(lot.firstFetch)}
            </p>
          )}
          <NotHadList lotId={lot.id} notHad={lot.notHad} cords={lot.cords} size={lot.size} />
          <BothAnswersFacts answers={lot.bothAnswers} lotSize={lot.cords} />
          {verdict && state !== 'drawn' && <p>{verdictSentence(lot)}</p>}
          {bounds && state !== 'screened' && state !== 'sorted' && (
            <>
              <p>{mayBeIn(bounds)}</p>
              <details>
                <summary>What the sample proves</summary>
                <Proven proof={bounds} condition={drawIntegrity} />
              </details>
            </>
          )}
        </>
      )}
      {mayDo('record', { lot, roles }) && lot.progress.toDo > 0 && (
        <p class="screen-only">
          {act !== 'test' && act !== 'screen' && (
            <>
              <a href={`/lots/${lot.id}/bench`}>Go to the bench</a> ·{' '}
            </>
          )}
          <a href={`/lots/${lot.id}/file`}>Results from a file</a>
        </p>
      )}
    </RecordStep>
  )
}

function Count({ lot: { progress, decision, terms, plan, planProgress, testedStage, state } }: { lot: LotFacts }) {
  const { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, toDo } = progress
  const stage =
    plan && planProgress && state === 'drawn' ? stageWords(plan, testedStage ?? planProgress.stage) : undefined
  const rest =
    decision?.outcome === 'screened'
      ? `; of the rest ${whole(restRecorded)}, ${whole(restNonconforming)} nonconforming`
      : ''
  return (
    <>
      <p>
        {whole(sampleRecorded)} tested in the sample, {whole(sampleNonconforming)} nonconforming{rest}.{' '}
        {toDo > 0 && `${whole(toDo)} left to record${stage ? ` (${stage})` : ''}.`}
      </p>
      <p>
        <small>
          Tested against {terms.cordLimit}; valid only if tester and adapters were in calibration. Cords are tested
          unpowered.
        </small>
      </p>
    </>
  )
}
