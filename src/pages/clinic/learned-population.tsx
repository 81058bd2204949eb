import { FEWEST_CHILDREN, FEWEST_DAYS } from '../../growth/child/learn-population-offset.js';
import { offsetInTheMiddle, type PopulationOffset } from '../../growth/population/population-offset.js';
import { type MeasureId, measureIds, measures } from '../../records/measure.js';
import type { LearnedPopulation as Learned } from '../../store/contract.js';
import { Empty, Section } from '../parts/layout.js';
import { type PageContext, usePage } from '../parts/page-context.js';
import { Table } from '../parts/table.js';

/** What the clinic's own children taught the forecasts, from how many of them. */
export function LearnedPopulation(props: {
  learned: Learned | null;
  peakVelocityAgeYears: Readonly<Record<'male' | 'female', number>>;
}) {
  const { learned, peakVelocityAgeYears } = props;
  const { format } = usePage();
  const rule = `A dimension is learned from ${FEWEST_CHILDREN} boys or girls on, each with it measured on ${FEWEST_DAYS} days or more from 2 years of age. Children whose condition itself moves the dimension, and children given growth hormone, are not asked.`;
  if (!learned || learned.offsets.length === 0)
    return (
      <Section id="learned" title="Learned from this clinic's children">
        <Empty>
          Nothing yet
          {learned && `: ${format.number(learned.children)} active children have too few repeated readings`}.
          Forecasts stand on the shipped model. {rule}
        </Empty>
      </Section>
    );
  const said = (measure: MeasureId, sex: 'male' | 'female') => {
    const o = learned.offsets.find((x) => x.measure === measure && x.sex === sex);
    return o ? offText(o, peakVelocityAgeYears[sex], format) : 'too few';
  };
  return (
    <Section id="learned" title="Learned from this clinic's children">
      <p>
        On {format.date(learned.learnedOn)} the forecasts were fitted to {format.number(learned.children)}{' '}
        active children of this clinic: by how much they stand off the model's average child of the same age.
        It is learned anew once a month. {rule}
      </p>
      <Table
        class="stack"
        scroll="Learned of each dimension"
        caption="Learned from how many children, and how far they stand off in the middle of their ages"
        rows={measureIds.filter((id) => learned.offsets.some((o) => o.measure === id))}
        columns={[
          ['Dimension', (id) => measures[id].label],
          ['Boys', (id) => said(id, 'male')],
          ['Girls', (id) => said(id, 'female')],
        ]}
      />
    </Section>
  );
}

/** 'from 24 children: 3 mm more at 9 years'. */
function offText(o: PopulationOffset, peakAgeYears: number, format: PageContext['format']): string {
  const { ageYears, mm, share } = offsetInTheMiddle(o, peakAgeYears);
  const size = mm === null ? format.percent(Math.abs(share)) : `${format.number(Math.abs(mm))} mm`;
  const more = (mm ?? share) < 0 ? 'less' : 'more';
  const off = /^0\D/.test(size) ? 'as the model says' : `${size} ${more}`;
  return `from ${o.children} children: ${off} at ${format.number(ageYears)} years`;
}
