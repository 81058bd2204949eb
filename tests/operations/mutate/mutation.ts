/** The lines of one file whose change must make a test fail. */
export interface MutationGroup {
  /** What would happen to a child or a clinic if nobody noticed. */
  readonly harm: string | readonly string[];
  readonly file: string;
  /** Test files that must notice, the quickest first. */
  readonly tests: readonly string[];
  /** Only tests of this name are run, where a file has many that take long. */
  readonly name?: string;
  /** Text that stands once in the file, and what it is changed to. */
  readonly changes: readonly (readonly [from: string, to: string])[];
}
