/** What the processor has done for this process, in ms: how busy the machine is with other things does not count. */
import process from 'node:process';

export function worked(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
