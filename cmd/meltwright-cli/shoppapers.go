package main

import (
	"context"
	"io"

	"meltwright/internal/desk"
)

func runOrderList(ctx context.Context, out io.Writer, args []string) error {
	return runPaper(ctx, out, args, map[string]func(*desk.Sheet, io.Writer) error{".pdf": warning(ctx, desk.OrderList, (*desk.Sheet).WriteOrderList), ".csv": (*desk.Sheet).WriteOrderSheet}, "--language")
}

func runTraveller(ctx context.Context, out io.Writer, args []string) error {
	return runPaper(ctx, out, args, map[string]func(*desk.Sheet, io.Writer) error{".pdf": warning(ctx, desk.Traveller, (*desk.Sheet).WriteTraveller)}, "--language")
}

func runLines(ctx context.Context, out io.Writer, args []string) error {
	return runPaper(ctx, out, args, map[string]func(*desk.Sheet, io.Writer) error{".csv": (*desk.Sheet).WriteLines})
}
