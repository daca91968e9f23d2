import { createFettle } from '../server/core/fettle.ts';
import { parseDocument } from 'yaml';
import { EDITS } from './bench/edits.ts';
import { makeMachine, readPanelSheet } from './bench/machines.ts';
import { randomFrom } from './support/random.ts';
import { worldOf } from './support/world.ts';
const cpu=(f:()=>unknown)=>{const a=process.threadCpuUsage();f();const b=process.threadCpuUsage(a);return (b.user+b.system)/1000};
const med=(a:number[])=>a.sort((x,y)=>x-y)[a.length>>1]!;
const sizes=(process.argv[2]??'300,3000').split(',').map(Number);
const kinds=(process.argv[3]??Object.keys(EDITS).join(',')).split(',');
const rounds=+(process.argv[4]??20), warm=+(process.argv[5]??6);
for(const size of sizes){
  const text=makeMachine(size);
  const fettle=createFettle(worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])));
  console.log(size,'first',cpu(()=>fettle.findings(fettle.analyse('bench.machine.yaml',text))).toFixed(0));
  const random=randomFrom(2);
  const parse:number[]=[];
  for(const kind of kinds){
    const t:number[]=[],back:number[]=[];
    for(let i=-warm;i<rounds;i++){
      const e=EDITS[kind]!(text,random);
      const typed=text.slice(0,e.from)+e.typed+text.slice(e.to);
      const a=cpu(()=>fettle.findings(fettle.analyse('bench.machine.yaml',typed)));
      const b=cpu(()=>fettle.findings(fettle.analyse('bench.machine.yaml',text)));
      if(i%4===0){parse.push(cpu(()=>parseDocument(text)));}
      if(i>=0){t.push(a);back.push(b);}
    }
    console.log(size,kind.padEnd(16),'edit',med(t).toFixed(1),'back',med(back).toFixed(1),'max',Math.max(...t).toFixed(1));
  }
  console.log(size,'parse',med(parse.slice(4)).toFixed(1), 'heap',Math.round(process.memoryUsage().heapUsed/1e6),'rss',Math.round(process.memoryUsage().rss/1e6));
}
