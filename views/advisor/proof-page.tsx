// What did my sample prove? Bounds on the untested cords, the lot and the process, and the sample that a claim would take.
import type { ProofQuestion, ProofText } from '../../app/advisor/proof-question.ts'
import type { Proof } from '../../app/advisor/prove.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { Strip } from '../charts/strip.tsx'
import { confidenceOf, percentAtLeast, percentAtMost, perThousandAtMost, riskOfHundred, whole } from '../figures.ts'
import { Blank, BlankProblem, Fact, Facts, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { State } from '../marks.tsx'
import { claimLine, firstLine, inWords } from './proof-words.ts'

type Answered = { question: ProofQuestion; proof: Proof }
type Props = Frame & { asked: ProofText; problems?: Problems | undefined; answer?: Answered | undefined }

export function ProofPage({ viewer, firm, asked, problems, answer }: Props) {
  return (
    <Page title="What a sample proves" viewer={viewer} firm={firm} current="proof">
      <h1>What did my sample prove?</h1>
      <ProofForm asked={asked} problems={problems} />
      {answer && <Answer {...answer} />}
    </Page>
  )
}

function ProofForm({ asked, problems = {} }: { asked: ProofText; problems: Problems | undefined }) {
  const gap = (name: keyof ProofText, label: string) => (
    <Blank
      name={name}
      label={label}
      value={asked[name]}
      problem={problems[name]}
      inputmode={name === 'claim' ? 'text' : 'decimal'}
    />
  )
  return (
    <form
      action="/proof"
      method="get"
      hx-get="/proof"
      hx-target="main"
      hx-select="main"
      hx-swap="outerHTML"
      hx-push-url="true"
    >
      <ProblemSummary problems={problems} />
      <p class="ask">
        I tested {gap('tested', 'Cords tested')} of {gap('lot', 'Lot size')} cords and{' '}
        {gap('found', 'Cords that did not conform')} did not conform. I want to be right{' '}
        {gap('confidence', 'Times in 100 to be right')} times in 100. I should like to say: fewer than{' '}
        {gap('claim', 'Fewer than this many in the lot')} in the lot (a number, or a share such as 1%).
      </p>
      {(['tested', 'lot', 'found', 'confidence', 'claim'] as const).map((name) => (
        <BlankProblem name={name} problem={problems[name]} />
      ))}
      <p class="actions">
        <button type="submit">Work it out</button>
      </p>
    </form>
  )
}

function Answer({ question, proof }: Answered) {
  const { lotSize, tested, confidence } = question
  const untested = lotSize - tested
  const sure = `${confidenceOf(confidence)} confidence, exact for this lot`
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
      <p>
        Each is a one-sided bound by the hypergeometric law: the most (or the fewest) nonconforming cords with which a
        random sample of {whole(tested)} would still show so few (or so many) in more than {riskOfHundred(confidence)}{' '}
        of 100 draws. It supposes nothing about how the cords were made.
      </p>
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
          `; the bracket stands over the ${whole(proof.untested.atMost)} that may not conform, wherever they are`}
      </figcaption>
    </figure>
  )
}

/** Clopper–Pearson, one-sided and two-sided, and why the two are not the same. */
function ProcessSection({ question, proof }: Answered) {
  const { confidence } = question
  const { fraction, interval } = proof
  const sided = `${confidenceOf(confidence)} confidence, one-sided`
  return (
    <>
      <h2>The process that made the cords</h2>
      <Facts>
        <Fact name="Fraction nonconforming, at most">
          {percentAtMost(fraction.atMost)}, or {perThousandAtMost(fraction.atMost)} <small>{sided}</small>
        </Fact>
        <Fact name="Fraction nonconforming, at least">
          {percentAtLeast(fraction.atLeast)} <small>{sided}</small>
        </Fact>
        <Fact name="Fraction nonconforming, between">
          {percentAtLeast(interval.lower)} and {percentAtMost(interval.upper)}{' '}
          <small>{confidenceOf(confidence)} confidence, two-sided</small>
        </Fact>
      </Facts>
      <p>
        The one-sided bound and the two-sided interval differ by design: the bound puts the whole risk of{' '}
        {riskOfHundred(confidence)} in 100 on one side, the interval half of it on each, so its ends lie as far out or
        further. Say “no worse than” with the bound, “between” with the interval.
      </p>
      <p>
        Exact by the binomial law (Clopper–Pearson); true of the process behind the lot, if the number to test was fixed
        beforehand and the cords fail one by one at a steady rate. For the lot in hand the counts above are the answer.
      </p>
    </>
  )
}
