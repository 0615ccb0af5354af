package main

import (
	"runtime"
)

// each works on the descriptions as o says, and hands their outcomes on in order.
func (t *talk) each(list []input, o order, take func(outcome)) {
	inOrder(list, func(in input) outcome {
		if in.err != nil {
			return outcome{path: in.path, err: in.err}
		}
		return work(in.path, t.in, o)
	}, take)
}

// inOrder works on the inputs with as many workers as there are processors and
// hands each outcome to done in the order of the inputs. What is in memory at
// one time is bounded by the number of workers, not by the number of inputs.
func inOrder(list []input, do func(input) outcome, done func(outcome)) {
	queue := make(chan chan outcome, runtime.GOMAXPROCS(0))
	go func() {
		defer close(queue)
		for _, in := range list {
			slot := make(chan outcome, 1)
			queue <- slot // waits while as many as there are processors are under way
			go func() { slot <- do(in) }()
		}
	}()
	for slot := range queue {
		done(<-slot)
	}
}
