/** Every word a chart shows, by language. A language without its own words is answered in English. */
export interface ChartWords {
  readonly left: string;
  readonly right: string;
  readonly child: string;
  readonly today: string;
  readonly now: string;
  readonly dateAndAge: string;
  readonly girls: string;
  readonly boys: string;
  readonly predictionNote: string;
  readonly centilesNote: string;
  readonly centile: string;
  readonly outgrown: string;
  readonly pace: (side: string, mm: number) => string;
  readonly between: (from: string, to: string) => string;
  readonly after: (from: string) => string;
  readonly usual: string;
  readonly braceRoom: string;
  readonly braceShould: string;
  readonly familyTitle: (measure: string) => string;
  readonly familyNote: string;
  readonly size: string;
  readonly mm: string;
}
