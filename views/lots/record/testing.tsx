// The steps in which cords are drawn and tested.

import type { LotFacts } from '../../../app/lots/record/lot.ts'
import { counted, whole } from '../../figures.ts'
import { Fact, Facts } from '../../form.tsx'
import { fetchSentence } from '../first-fetch.tsx'
import { mayDo } from '../may.ts'
import { BothAnswersFacts, NotHadList } from '../not-had.tsx'
import { Proven, verdictSentence } from '../proven.tsx'
import { drawMethodWords, stageWords } from '../words.ts'
import type { LotRecordProps } from './step.tsx'
import { RecordStep } from './step.tsx'

export function Drawn({ lot, roles }: LotRecordProps) {
  const { draw, plan } = lot
  return (
    <RecordStep title="Drawn" signed={draw} open={lot.next?.act === 'draw'}>
      {draw && (
        <>
          <Facts>
            <Fact name="Seed">
              <code>{draw.seed}</code>
            </Fact>
            <Fact name="Method">{drawMethodWords(draw.method)}</Fact>
            {draw.standIns > 0 && <Fact name="Reserves drawn">{whole(draw.standIns)}</Fact>}
          </Facts>
          <p class="screen-only">
            <a href={`/lots/${lot.id}/draw`}>The drawn cords in walking order</a>
          </p>
        </>
      )}
      {plan && mayDo('draw', { lot, roles }) && (
        <form method="post" action={`/lots/${lot.id}/draw`}>
          <p>
            A lot is drawn once. The seed comes from the system’s random source at this moment, and from it anybody can
            draw the same positions again.
          </p>
          <button type="submit">Draw {counted(plan.sampleSize, 'position')}</button>
        </form>
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
          {bounds && state !== 'screened' && state !== 'sorted' && <Proven proof={bounds} condition={drawIntegrity} />}
        </>
      )}
      {mayDo('record', { lot, roles }) && lot.progress.toDo > 0 && (
        <p class="actions">
          <a class={act === 'test' || act === 'screen' ? 'button' : 'button plain'} href={`/lots/${lot.id}/bench`}>
            Go to the bench
          </a>
          <a class="button plain" href={`/lots/${lot.id}/file`}>
            Take results from a file
          </a>
        </p>
      )}
    </RecordStep>
  )
}

function Count({ lot: { progress, decision, terms, plan, planProgress, testedStage, state } }: { lot: LotFacts }) {
  const { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, toDo } = progress
  const stage =
    plan && planProgress && state === 'drawn' ? stageWords(plan, testedStage ?? planProgress.stage) : undefined
  return (
    <>
      <Facts>
        <Fact name="Recorded in the sample">{whole(sampleRecorded)}</Fact>
        <Fact name="of these not conforming">{whole(sampleNonconforming)}</Fact>
        {decision?.outcome === 'screened' && (
          <>
            <Fact name="Recorded of the rest">{whole(restRecorded)}</Fact>
            <Fact name="of these not conforming">{whole(restNonconforming)}</Fact>
          </>
        )}
        <Fact name={stage ? `Left to record (${stage})` : 'Left to record'}>{whole(toDo)}</Fact>
      </Facts>
      <p>
        <small>
          Tested against {terms.cordLimit}; as good as the tester, its adapters and their calibration were. Cords are
          tested unpowered.
        </small>
      </p>
    </>
  )
}
