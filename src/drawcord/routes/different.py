from heapq import heappop, heappush
import numpy as np
from drawcord.routes.least import FAR, least_in_order
from drawcord.routes.net import Net, Path
from drawcord.routes.packing import Packing
from operator import lshift

class Guide:
    def __init__(self, net, columns):
        self.net=net
        least = least_in_order(net.tail, net.head, columns, len(net.space), net.goal)
        self.least = least
        self.step = columns + least[net.head] - least[net.tail]
        top = (columns.max(axis=0, initial=0) * len(net.space) * 2).tolist()
        self.fields = Packing(top)
        self.first = net.first.tolist()
        self.arcs = [None] * len(net.space)
        self.ok = least[:, 0] < FAR
        self.okl = self.ok.tolist()
    def start(self):
        return self.fields.pack(self.least[self.net.start].tolist())
    def out(self, s):
        net = self.net
        r = self.arcs[s]
        if r is None:
            a, b = self.first[s], self.first[s+1]
            shift=self.fields.shift
            ok=self.okl
            space=net.space
            goal=net.goal
            r = self.arcs[s] = [(h, space[h], sum(map(lshift, row, shift))) for h, row in zip(net.head[a:b].tolist(), self.step[a:b].tolist()) if ok[h]]
        return r

def different(net, weights, marked, count, revisit=None):
    w = net.cost @ np.asarray(weights, np.int64)
    space = np.array(net.space)
    mk = np.zeros(net.spaces + 1, np.int64)
    for m in marked: mk[m] = 1
    columns = np.column_stack([w, net.cost, mk[space[net.head]]])
    g = Guide(net, columns)
    mm = sum(1 << m for m in marked)
    mask = mm | (net.revisit if revisit is None else revisit)
    heap = [(g.start(), (net.start,), 1 << net.space[net.start])]
    kept = []
    settled = [[] for _ in net.space]
    out = []
    pops = 0
    while heap and len(out) < count:
        key, path, seen = heappop(heap)
        pops += 1
        if any(k & seen == k for k in kept): continue
        s = path[-1]
        if s == net.goal:
            kept.append(seen & mm)
            out.append((key, path))
            continue
        here = settled[s]
        m = seen & mask
        if any(o & m == o for o in here): continue
        here.append(m)
        for h, x, add in g.out(s):
            if x >= 0:
                if seen >> x & 1: continue
                sn = seen | 1 << x
                if any(k & sn == k for k in kept): continue
            else: sn = seen
            heappush(heap, (key + add, (*path, h), sn))
    return out, pops, len(heap)

def orders(net, weights, count):
    w = net.cost @ np.asarray(weights, np.int64)
    columns = np.column_stack([w, net.cost])
    g = Guide(net, columns)
    s = net.start
    heap = [(g.start(), (net.space[s],), 1 << net.space[s], [(g.start(), (s,))])]
    out = []
    pops = 0
    while heap and len(out) < count:
        key, order, seen, front = heappop(heap)
        pops += 1
        if order[-1] < 0:
            out.append(front[0]); continue
        nxt = {}
        for k, path in front:
            for h, x, add in g.out(path[-1]):
                if x >= 0 and seen >> x & 1: continue
                d = nxt.get(x)
                if d is None: d = nxt[x] = {}
                k2 = k + add
                c = d.get(h)
                if c is None or k2 < c[0] or (k2 == c[0] and (*path, h) < c[1]):
                    d[h] = (k2, (*path, h))
        for x, d in nxt.items():
            f = list(d.values())
            heappush(heap, (min(f)[0], (*order, x), seen | (1 << x if x >= 0 else 0), f))
    return out, pops, len(heap)
