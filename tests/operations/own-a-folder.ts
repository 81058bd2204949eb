/** A process of its own that owns the data folder named as argument, until it is killed or asked to end. */
import { startEmbeddedDatabase } from '../../src/store/embedded/embedded-database.js';

try {
  const database = await startEmbeddedDatabase(process.argv[2]);
  console.log('owns');
  process.on('SIGTERM', () => database.stop().then(() => process.exit(0)));
  setInterval(() => {}, 1000);
} catch (error) {
  console.log((error as { code?: string }).code, (error as Error).message);
  process.exit(3);
}
