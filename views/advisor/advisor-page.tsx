// The start page: how many cords should I test? The answer in one line, its reason, the ways side by side, the curves.
import type { Comparison } from '../../app/advisor/compare.ts'
import type { Curves } from '../../app/advisor/curve.ts'
import type { Question, QuestionText } from '../../app/advisor/question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { whole } from '../figures.ts'
import { type Frame, Page } from '../layout.tsx'
import { CurveFigure } from './curve-figure.tsx'
import { OptionsTable } from './options.tsx'
import { QuestionForm } from './question.tsx'
import { adviceIn, contractIn, reasonFor, sharesIn } from './reasons.ts'

type Advice = { question: Question; comparison: Comparison; curves: Curves }
type Props = Frame & { asked: QuestionText; problems?: Problems | undefined; advice?: Advice | undefined }

export function AdvisorPage({ viewer, firm, done, asked, problems, advice }: Props) {
  return (
    <Page title="How many cords to test" viewer={viewer} firm={firm} done={done} current="advisor">
      <h1>How many cords should I test?</h1>
      <QuestionForm asked={asked} problems={problems} />
      {advice && <Answer asked={asked} {...advice} />}
      {firm?.example && (
        <p>
          <a href={viewer ? '/lots' : '/sign-in'}>See a lot from dock to decision</a>
        </p>
      )}
    </Page>
  )
}

function Answer({ asked, question, comparison, curves }: Advice & { asked: QuestionText }) {
  const contract = contractIn(question, comparison)
  const shares = sharesIn(asked, question)
  return (
    <>
      <p class="answer">{adviceIn(comparison.advised, question)}</p>
      <p class="because">{reasonFor(question, comparison)}</p>
      {contract && <p>{contract}</p>}
      {shares && <p>{shares}</p>}
      <NumbersCondition />
      <h2>What each way of testing does to a lot with {whole(question.tooMany)} nonconforming</h2>
      <OptionsTable question={question} comparison={comparison} />
      <h2>How often a lot is accepted</h2>
      <CurveFigure question={question} comparison={comparison} curves={curves} />
    </>
  )
}
