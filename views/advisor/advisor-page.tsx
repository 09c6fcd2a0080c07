// The start page: how many cords should I test? The question beside its answer, the reason, a picture, the ways, the curves.
import type { AnsweredQuestion } from '../../app/advisor/answered.ts'
import type { Question, QuestionText } from '../../app/advisor/question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { wantedOfHundred, whole } from '../figures.ts'
import { Columns } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { CurveFigure } from './curve-figure.tsx'
import { FiguresOfAdvice } from './figures.tsx'
import { HowWorkedOut } from './method.tsx'
import { OptionsTable } from './options.tsx'
import { HundredsFigure } from './picture.tsx'
import { QuestionForm } from './question.tsx'
import { adviceIn, contractIn, reasonFor, sharesIn } from './reasons.ts'

/** `example`: nobody asked yet; the question is the usual example's. */
type Props = Frame & {
  asked: QuestionText
  currency: string
  example?: boolean
  problems?: Problems | undefined
  advice?: AnsweredQuestion | undefined
}

const description =
  'How many patch cords of a delivery to test so that a lot with too many nonconforming ones is caught, by exact chances.'

export function AdvisorPage({ viewer, firm, done, asked, currency, example, problems, advice }: Props) {
  return (
    <Page
      title="How many cords to test"
      description={description}
      viewer={viewer}
      firm={firm}
      done={done}
      current="advisor"
    >
      <Columns
        side="left"
        summary={advice && summaryOf(advice.question)}
        open={problems !== undefined}
        panel={<QuestionForm asked={asked} currency={currency} problems={problems} advice={advice} />}
      >
        <h1>How many cords should I test?</h1>
        {example && (
          <p class="lead">
            Cordsift works out how many cords of a delivery to test, and what the test proves. This is an example:
            change it to your lot.
          </p>
        )}
        {advice && <Answer asked={asked} currency={currency} advice={advice} />}
        {!firm && <p class="lead">No accounts yet: open the set-up link that the service printed on its console.</p>}
        {firm?.example && (
          <p>
            <a href={viewer ? '/lots' : '/sign-in'}>See a lot from dock to decision</a>
          </p>
        )}
      </Columns>
    </Page>
  )
}

/** The question in one line, as a narrow screen shows it above the answer. */
function summaryOf({ lotSize, tooMany, confidence }: Question): string {
  return `${whole(lotSize)} cords, ${whole(tooMany)} too many, catch ${wantedOfHundred(confidence)}: change`
}

type AnswerProps = { asked: QuestionText; currency: string; advice: AnsweredQuestion }

function Answer({ asked, currency, advice }: AnswerProps) {
  const { question, comparison, curves } = advice
  const contract = contractIn(question, comparison)
  const shares = sharesIn(asked, question)
  return (
    <>
      <p class="answer" role="status">
        {adviceIn(comparison.advised, question)}
      </p>
      <p class="because">{reasonFor(question, comparison)}</p>
      {contract && <p class="because">{contract}</p>}
      {shares && <p class="because">{shares}</p>}
      <FiguresOfAdvice question={question} comparison={comparison} currency={currency} />
      <HundredsFigure question={question} comparison={comparison} />
      <h2>Ways to test it</h2>
      <OptionsTable question={question} comparison={comparison} />
      <h2>Lots accepted, of 100, by the nonconforming cords they hold</h2>
      <CurveFigure question={question} comparison={comparison} curves={curves} />
      <NumbersCondition />
      <HowWorkedOut />
    </>
  )
}
