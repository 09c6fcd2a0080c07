// What did my sample prove? Bounds on the untested cords, the lot and the process, and the sample that a claim would take.
import type { ProofQuestion, ProofText } from '../../app/advisor/proof-question.ts'
import type { Proof } from '../../app/advisor/prove.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { Strip } from '../charts/strip.tsx'
import { confidenceOf, whole } from '../figures.ts'
import { Columns, Tile, Tiles, Topic } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { State } from '../marks.tsx'
import { ProcessSection } from './process.tsx'
import { ProofForm } from './proof-form.tsx'
import { claimLine, firstLine, inWords, lotMethod } from './proof-words.ts'

type Answered = { question: ProofQuestion; proof: Proof }
/** `example`: nobody asked yet; the question is the usual example's. */
type Props = Frame & {
  asked: ProofText
  example?: boolean
  problems?: Problems | undefined
  answer?: Answered | undefined
}

const description =
  'What a tested sample of patch cords proves about the cords nobody tested: exact bounds at the confidence you choose.'

export function ProofPage({ viewer, firm, done, asked, example, problems, answer }: Props) {
  return (
    <Page
      title="What a sample proves"
      description={description}
      viewer={viewer}
      firm={firm}
      done={done}
      current="proof"
    >
      <Columns
        side="left"
        summary={answer && summaryOf(answer.question)}
        open={problems !== undefined}
        panel={<ProofForm asked={asked} problems={problems} />}
      >
        <h1>What did my sample prove?</h1>
        {example && <p class="lead">This is an example: change it to your sample.</p>}
        {answer && <Answer {...answer} />}
      </Columns>
    </Page>
  )
}

/** The question in one line, as a narrow screen shows it above the answer. */
function summaryOf({ lotSize, tested, found }: ProofQuestion): string {
  return `${whole(tested)} of ${whole(lotSize)} tested, ${whole(found)} nonconforming: change`
}

function Answer({ question, proof }: Answered) {
  const { lotSize, tested, confidence } = question
  const answer = (
    <p class="answer" role="status">
      {firstLine(question, proof)}
    </p>
  )
  if (lotSize === tested) return answer
  const note = `${confidenceOf(confidence)} confidence, one-sided`
  return (
    <>
      {answer}
      <p class="because">{claimLine(question, proof.needed)}</p>
      <Tiles>
        <Tile name="Nonconforming in the whole lot, at most" note={note}>
          {whole(proof.lot.atMost)} of {whole(lotSize)}
        </Tile>
        <Tile name="Nonconforming in the whole lot, at least" note={note}>
          {whole(proof.lot.atLeast)} of {whole(lotSize)}
        </Tile>
      </Tiles>
      <StripFigure question={question} proof={proof} />
      <NumbersCondition />
      <Topic title="The process that made the cords">
        <ProcessSection question={question} proof={proof} />
      </Topic>
      <Topic title="How these numbers are worked out">
        <p>{lotMethod(question)}</p>
      </Topic>
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
          `; the bracket covers ${whole(proof.untested.atMost)} of them: so many could be nonconforming, anywhere`}
      </figcaption>
    </figure>
  )
}
