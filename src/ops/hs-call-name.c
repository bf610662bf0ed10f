// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A caller whom the book knows under another name than he gave. The book keeps its own until the owner says otherwise:
 * a wife, a clerk or a hirer may call from the number of somebody else. Refuses a job that is squared up. */

#include "hs-call-name.h"

#include "hs-customer-row.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-stage.h"
#include "hs-visit-row.h"

void
hs_call_name_free (HsCallName *name)
{
  if (name == NULL)
    return;
  g_free (name->known);
  g_free (name->given);
  g_free (name);
}

static gboolean
dup_given (HsStore *store, const char *job_id, char **ret_given, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_asked_row_list_of (store, job_id, &rows, error))
    return FALSE;
  *ret_given = NULL;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAskedRow *row = g_ptr_array_index (rows, i);

      if (!g_str_equal (row->question, HS_CALL_NAME_QUESTION))
        continue;
      g_free (*ret_given);
      *ret_given = g_strdup (row->answer);
    }
  return TRUE;
}

static gboolean
load_both (HsStore *store, const char *job_id, HsJobRow **ret_job, HsCustomerRow **ret_customer, char **ret_given,
           GError **error)
{
  return hs_job_row_load (store, job_id, ret_job, error)
         && hs_customer_row_load (store, (*ret_job)->customer_id, ret_customer, error)
         && dup_given (store, job_id, ret_given, error);
}

gboolean
hs_call_name_load (HsBook *book, const char *job_id, HsCallName **ret_name, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (HsCallName) name = NULL;
  g_autofree char *given = NULL;

  if (!load_both (hs_book_get_store (book), job_id, &job, &customer, &given, error))
    return FALSE;
  *ret_name = NULL;
  if (given == NULL || g_str_equal (given, customer->name) || g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return TRUE;
  name = g_new0 (HsCallName, 1);
  name->known = g_strdup (customer->name);
  name->given = g_steal_pointer (&given);
  *ret_name = g_steal_pointer (&name);
  return TRUE;
}

static gboolean
take (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autofree char *given = NULL;

  if (!load_both (store, job_id, &job, &customer, &given, error))
    return FALSE;
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return hs_ops_refuse (error, "%s is squared up; its names stay. Rename the customer on the next call.",
                          job->number);
  if (given == NULL || g_str_equal (given, customer->name))
    return hs_ops_refuse (error, "%s: no other name than “%s” was given.", job->number, customer->name);
  hs_row_set (&customer->name, given);
  return hs_customer_row_save (store, customer, error);
}

gboolean
hs_call_name_take (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, "customer renamed");
  return hs_store_end (store, take (store, job_id, error), error);
}
