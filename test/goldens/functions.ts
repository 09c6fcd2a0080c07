// The contract of the golden numbers: each name of a case and the engine's own function behind it. Renames arguments, computes nothing.
import { lowerBoundOfFraction, upperBoundOfFraction } from '../../app/statistics/bounds/fraction.ts'
import { intervalOfFraction } from '../../app/statistics/bounds/interval.ts'
import { lowerBoundInLot, upperBoundInLot } from '../../app/statistics/bounds/lot.ts'
import { posteriorOfRemainder } from '../../app/statistics/bounds/posterior.ts'
import { upperBoundInRemainder } from '../../app/statistics/bounds/remainder.ts'
import { upperBoundAfterStopInStage } from '../../app/statistics/bounds/stopped-in-stage.ts'
import { boundsWithUndecided } from '../../app/statistics/bounds/undecided.ts'
import { cleanRemainder } from '../../app/statistics/clustering/clean-remainder.ts'
import { fractionOfCords } from '../../app/statistics/clustering/terminations.ts'
import * as beta from '../../app/statistics/distributions/beta.ts'
import * as betaBinomial from '../../app/statistics/distributions/beta-binomial.ts'
import * as binomial from '../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../app/statistics/distributions/hypergeometric.ts'
import * as noncentralT from '../../app/statistics/distributions/noncentral-t.ts'
import * as normal from '../../app/statistics/distributions/normal.ts'
import * as student from '../../app/statistics/distributions/student.ts'
import { curtailedUnderPrior } from '../../app/statistics/economics/curtailed-cost.ts'
import { expectedCost } from '../../app/statistics/economics/expected-cost.ts'
import { optimalPlan } from '../../app/statistics/economics/optimal-plan.ts'
import { exactChartLimits, pChartLimits } from '../../app/statistics/history/chart.ts'
import { betaBinomialFit } from '../../app/statistics/history/fit.ts'
import { homogeneityOfLots } from '../../app/statistics/history/homogeneity.ts'
import { chanceLower } from '../../app/statistics/history/lower.ts'
import { globalRisks } from '../../app/statistics/measurement/global-risks.ts'
import { chanceConforming, guardBandFor } from '../../app/statistics/measurement/guard-band.ts'
import { acceptanceCurveOfLot } from '../../app/statistics/plans/curve.ts'
import { sequentialLines } from '../../app/statistics/plans/lines.ts'
import * as measures from '../../app/statistics/plans/measures.ts'
import { outgoingQualityLimit } from '../../app/statistics/plans/outgoing-limit.ts'
import { fractionAtAcceptance } from '../../app/statistics/plans/quality-at.ts'
import { averageOutgoingQuality, averageTotalInspection } from '../../app/statistics/plans/rectifying.ts'
import { designSingleForLot, designSingleForProcess } from '../../app/statistics/plans/single.ts'
import { designZeroForLot, designZeroForProcess } from '../../app/statistics/plans/zero.ts'
import { replayOnLot } from '../../app/statistics/replay.ts'
import { acceptanceByVariables, acceptanceByVariablesKnownSigma } from '../../app/statistics/variables/acceptance.ts'
import { designVariables } from '../../app/statistics/variables/design.ts'
import { toleranceFactor } from '../../app/statistics/variables/tolerance.ts'

/** Every argument that a case can hold; each function reads its own. */
export type Arguments = {
  found: number
  lotSize: number
  nonconforming: number
  sampleSize: number
  fraction: number
  a: number
  b: number
  x: number
  z: number
  t: number
  probability: number
  degreesOfFreedom: number
  noncentrality: number
  plan: { kind: string; stages: { sampleSize: number; acceptanceNumber: number; rejectionNumber: number }[] }
  replacement: boolean
  acceptance: number
  risk: number
  producer: { fraction: number; nonconforming: number; risk: number }
  consumer: { fraction: number; nonconforming: number; risk: number }
  confidence: number
  method: 'clopper-pearson' | 'wilson' | 'jeffreys' | 'mid-p'
  prior: { a: number; b: number; mean: number; standardDeviation: number }
  k: number
  coverage: number
  termination: number
  cable: number
  correlation: number
  lots: { sampleSize: number; tested: number; found: number; rejectionNumber?: number }[]
  first: { a: number; b: number }
  second: { a: number; b: number }
  sigmas: number
  tailProbability: number
  costs: { test: number; escape: number; rejection: number }
  afterRejection: 'screen' | 'return'
  margin: number
  uncertainty: number
  consumersRisk: number
  guardBand: number
  stage: number
  tested: number
  undecided: number
}

export const functions: Record<string, (args: Arguments) => number | object> = {
  // Distributions
  hypergeometricDensity: ({ found, ...draw }) => hypergeometric.density(found, draw),
  hypergeometricAtMost: ({ found, ...draw }) => hypergeometric.atMost(found, draw),
  hypergeometricMoreThan: ({ found, ...draw }) => hypergeometric.moreThan(found, draw),
  binomialDensity: ({ found, ...trials }) => binomial.density(found, trials),
  binomialAtMost: ({ found, ...trials }) => binomial.atMost(found, trials),
  binomialMoreThan: ({ found, ...trials }) => binomial.moreThan(found, trials),
  betaBinomialDensity: ({ found, ...trials }) => betaBinomial.density(found, trials),
  betaBinomialAtMost: ({ found, ...trials }) => betaBinomial.atMost(found, trials),
  betaBinomialMoreThan: ({ found, ...trials }) => betaBinomial.moreThan(found, trials),
  betaAtMost: ({ x, ...shape }) => beta.atMost(x, shape),
  betaQuantile: ({ probability, ...shape }) => beta.quantile(probability, shape),
  normalAtMost: ({ z }) => normal.atMost(z),
  normalQuantile: ({ probability }) => normal.quantile(probability),
  studentQuantile: ({ probability, ...freedom }) => student.quantile(probability, freedom),
  noncentralTAtMost: ({ t, ...law }) => noncentralT.atMost(t, law),

  // Plans for a lot and for a process
  acceptanceOfLot: ({ plan, ...quality }) => measures.acceptanceOfLot(plan, quality),
  averageSampleSizeOfLot: ({ plan, ...quality }) => measures.averageSampleSizeOfLot(plan, quality),
  curtailedSampleSizeOfLot: ({ plan, ...quality }) => measures.curtailedSampleSizeOfLot(plan, quality),
  acceptanceOfProcess: ({ plan, fraction }) => measures.acceptanceOfProcess(plan, fraction),
  averageSampleSizeOfProcess: ({ plan, fraction }) => measures.averageSampleSizeOfProcess(plan, fraction),
  curtailedSampleSizeOfProcess: ({ plan, fraction }) => measures.curtailedSampleSizeOfProcess(plan, fraction),
  acceptanceCurveOfLot: ({ plan, lotSize }) => acceptanceCurveOfLot(plan, lotSize),
  averageTotalInspection: ({ plan, ...supply }) => averageTotalInspection(plan, supply),
  averageOutgoingQuality: ({ plan, ...supply }) => averageOutgoingQuality(plan, supply),
  outgoingQualityLimit: ({ plan, ...rectifying }) => outgoingQualityLimit(plan, rectifying),
  fractionAtAcceptance: ({ plan, acceptance }) => fractionAtAcceptance(plan, acceptance),
  sequentialLines: (requirements) => sequentialLines(requirements),

  // Designs
  designSingleForProcess: (requirements) => designSingleForProcess(requirements),
  designSingleForLot: (requirements) => designSingleForLot(requirements),
  designZeroForLot: (requirements) => designZeroForLot(requirements),
  designZeroForProcess: (requirements) => designZeroForProcess(requirements),

  // Bounds
  upperBoundOfFraction,
  lowerBoundOfFraction,
  intervalOfFraction: ({ method, ...evidence }) => intervalOfFraction(method, evidence),
  upperBoundInLot,
  lowerBoundInLot,
  upperBoundInRemainder,
  posteriorOfRemainder,
  upperBoundAfterStopInStage,
  boundsWithUndecided,
  homogeneityOfLots: ({ lots }) => homogeneityOfLots(lots),
  curtailedUnderPrior: ({ plan, ...model }) => curtailedUnderPrior(plan, model),
  replayOnLot,

  // Margins and measurement
  acceptanceByVariables,
  acceptanceByVariablesKnownSigma,
  designVariables,
  toleranceFactor,
  chanceConforming,
  guardBandFor,
  globalRisks,

  // Terminations
  fractionOfCords,
  cleanRemainder,

  // Economics
  expectedCost: ({ plan, ...economicModel }) => expectedCost(economicModel, plan),
  optimalPlan: (economicModel) => optimalPlan(economicModel),

  // History
  betaBinomialFit: ({ lots }) => betaBinomialFit(lots),
  chanceLower: ({ first, second }) => chanceLower(first, second),
  pChartLimits: (chart) => pChartLimits(chart),
  exactChartLimits: (chart) => exactChartLimits(chart),
}
