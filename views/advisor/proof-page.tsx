// What did my sample prove? Bounds on the untested cords, the lot and the process, and the sample that a claim would take.
import type { ProofQuestion, ProofText } from '../../app/advisor/proof-question.ts'
import type { Proof } from '../../app/advisor/prove.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { Strip } from '../charts/strip.tsx'
import { confidenceOf, whole } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { State } from '../marks.tsx'
import { ProcessSection } from './process.tsx'
import { ProofForm } from './proof-form.tsx'
import { claimLine, firstLine, inWords, lotMethod } from './proof-words.ts'

type Answered = { question: ProofQuestion; proof: Proof }
type Props = Frame & { asked: ProofText; problems?: Problems | undefined; answer?: Answered | undefined }

export function ProofPage({ viewer, firm, done, asked, problems, answer }: Props) {
  return (
    <Page title="What a sample proves" viewer={viewer} firm={firm} done={done} current="proof">
      <h1>What did my sample prove?</h1>
      <ProofForm asked={asked} problems={problems} />
      {answer && <Answer {...answer} />}
    </Page>
  )
}

function Answer({ question, proof }: Answered) {
  const { lotSize, tested, confidence } = question
  const untested = lotSize - tested
  const sure = `${confidenceOf(confidence)} confidence, exact for this lot`
  if (untested === 0) return <p class="answer">{firstLine(question, proof)}</p>
  return (
    <>
      <p class="answer">{firstLine(question, proof)}</p>
      <p class="because">{claimLine(question, proof.needed)}</p>
      <NumbersCondition />
      <StripFigure question={question} proof={proof} />
      <h2>The lot in hand</h2>
      <Facts>
        <Fact name="Nonconforming among the untested, at most">
          {whole(proof.untested.atMost)} of {whole(untested)} <small>{sure}</small>
        </Fact>
        <Fact name="Nonconforming in the whole lot, at most">
          {whole(proof.lot.atMost)} of {whole(lotSize)} <small>{sure}</small>
        </Fact>
        <Fact name="Nonconforming in the whole lot, at least">
          {whole(proof.lot.atLeast)} of {whole(lotSize)} <small>{sure}</small>
        </Fact>
      </Facts>
      <p>{lotMethod(question)}</p>
      <ProcessSection question={question} proof={proof} />
    </>
  )
}

function StripFigure({ question, proof }: Answered) {
  const { lotSize, tested, found } = question
  const untested = lotSize - tested
  return (
    <figure class="chart keep">
      <Strip
        title={inWords(question, proof)}
        lotSize={lotSize}
        tested={tested}
        found={found}
        bound={proof.untested.atMost}
      />
      <figcaption>
        {tested - found > 0 && (
          <>
            {whole(tested - found)} <State state="conforms" word="conform" /> ·{' '}
          </>
        )}
        {found > 0 && (
          <>
            {whole(found)} <State state="does-not-conform" word={found === 1 ? 'does not conform' : 'do not conform'} />{' '}
            ·{' '}
          </>
        )}
        {untested > 0 && (
          <>
            {whole(untested)} <State state="not-tested" />
          </>
        )}
        {proof.untested.atMost > 0 &&
          `; the bracket stands over the ${whole(proof.untested.atMost)} that could be nonconforming, wherever they are`}
      </figcaption>
    </figure>
  )
}
