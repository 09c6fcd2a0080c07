// What the benches say of a cord that they buy, beside its name.

export const terms = {
  categoryClaimed: 'Category 6A',
  cordLimit: 'the cord limit of the contract',
  lengthMetres: '2',
  marginalPolicy: 'strict' as const,
  crosstalkAccuracy: '1.2',
  returnLossAccuracy: '1.5',
  tooMany: '3',
  catchOf100: '95',
  costTestCents: 140,
  costEscapeCents: 9000,
  costReturnCents: 20_000,
  critical: false,
  acceptanceQualityLimit: null,
  inspectionLevel: 'II' as const,
  countDifferencePercent: '2',
  afterRejection: 'return' as const,
  undecidedCounts: 'manager-rules' as const,
  groupSize: 30,
}
