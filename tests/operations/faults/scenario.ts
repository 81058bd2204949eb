export interface ScenarioReport {
  /** Everything that should not be; empty when nothing was lost, doubled or halved. */
  readonly faults: readonly string[];
  readonly figures: Readonly<Record<string, unknown>>;
  /** How often each answer came to those who wrote. */
  readonly answers?: ReadonlyMap<string, number>;
  /** Why it was not done. */
  readonly skipped?: string;
}

/** `times`: how often, where the scenario can be longer or shorter; `seed` of what is left to chance. */
export type Scenario = (
  say: (line: string) => void,
  times?: number,
  seed?: number,
) => Promise<ScenarioReport>;
